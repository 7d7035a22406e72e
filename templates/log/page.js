"use strict";
// The page: which card was scanned and whether it is in force, its form, what is kept, and handing over.

const MARK = /^([0-9]{1,2}(?:\.[0-9]{1,3})?)(?:\.([0-9a-z]{5}))?$/;
const at = (id) => document.getElementById(id);
const now = { mark: null, card: null, code: "", form: "", correcting: null, asks: null, isTyped: false, isAll: false };

function say(text, isFocused = false) {
  at("said").textContent = text;
  if (isFocused) {
    at("said").focus({ preventScroll: true });
    at("said").scrollIntoView({ block: "center" });
  }
}

// The address names a card and the code on its foot, or a card alone, or nothing.
function route() {
  const mark = location.hash.slice(1);
  const found = MARK.exec(mark);
  now.mark = found ? found[1] : null;
  now.code = (found && found[2]) || "";
  now.card = RIG.cards.find((one) => one.id === now.mark) || null;
  const title = now.card ? `${now.card.id} ${now.card.title}` : now.mark ? `Card ${now.mark}` : "Log";
  at("title").textContent = title;
  document.title = `${title} · ${RIG.rig}`;
  const inHand = now.card && now.card.code;
  const isInForce = inHand && now.code === now.card.code;
  at("code").textContent = isInForce ? `Code ${now.code}: in force` : inHand ? `In force: code ${now.card.code}` : "";
  at("code").className = isInForce ? "in-force" : "";
  at("warning").replaceChildren(...warning(mark, Boolean(found)));
  openForm(formsOf(now.card)[0]);
}

// What is wrong with the card in hand, and what changed since, where that is known.
function warning(mark, isMark) {
  const line = (text) => el("p", {}, text);
  if (!mark) return [];
  if (!isMark) return [el("strong", {}, "This address names no card."), line("Choose the card below.")];
  if (!now.card) return [el("strong", {}, `There is no card ${now.mark} of ${RIG.rig} here.`), line("Compare the rig's name on the card.")];
  if (!now.code || now.code === now.card.code) return [];
  const was = now.card.was[now.code], force = now.card.code;
  if (!was) {
    return [
      el("strong", {}, `Code ${now.code} is not known here.`),
      line(`In force is ${force}. The card is out of date, or newer than this page: do not go by its numbers until you know.`),
      line("Does its foot say \u201cprivate\u201d? Such a card has a code of its own, which this page never knows."),
    ];
  }
  const until = was.until ? ` It was replaced on ${was.until}.` : ` It was printed on ${was.of}.`;
  const order = force ? `In force is ${force}. Destroy this card, print it anew.` : "There is no such card any more. Destroy it.";
  const moved = was.moved.map(([name, before, after]) => el("li", {}, `${name}: `, el("s", {}, before || "blank"), " ", el("b", {}, `now ${after || "blank"}`)));
  const unknown = force ? "What changed on it is not recorded here." : "";
  return [
    el("strong", {}, "This card is out of date."), line(`${order}${until}`),
    moved.length ? el("div", {}, line("Changed:"), el("ul", {}, ...moved)) : line(unknown),
  ];
}

function formsOf(card) {
  return (card && CARD_FORMS[card.name]) || (card ? OTHER_CARD : EVERY_FORM);
}

function showKinds() {
  const first = formsOf(now.card), others = EVERY_FORM.filter((one) => !first.includes(one));
  const key = (name) => el("button", { type: "button", "aria-pressed": String(name === now.form), onclick: () => { say(""); openForm(name); } }, FORMS[name].title);
  const rest = el("div", { class: "keys", id: "others", hidden: !others.includes(now.form) }, ...others.map(key));
  const open = el("button", { type: "button", "aria-controls": "others", "aria-expanded": String(!rest.hidden), onclick: () => {
    rest.hidden = !rest.hidden;
    open.setAttribute("aria-expanded", String(!rest.hidden));
  } }, "Other");
  at("kinds").replaceChildren(el("div", { class: "keys" }, ...first.map(key), others.length ? open : null), rest);
}

const DRAFT_LASTS = 2 * 3600 * 1000; // Milliseconds: what was typed longer ago was not of this walk.
let drafting = 0;

// What is typed and not kept yet outlives a page that the phone puts away between two tires.
function typed() {
  const nodes = [...at("form").querySelectorAll("input, select, textarea")];
  const sign = [...at("form").querySelectorAll("label, legend")].map((one) => one.textContent).join("|");
  return { nodes, sign };
}

function saveDraft() {
  const { nodes, sign } = typed(), values = nodes.map((one) => (one.type === "radio" ? one.checked : one.value));
  set(`draft ${now.form}`, { sign, values, at: Date.now() }).catch(() => false);
}

function restoreDraft() {
  const draft = kept.settings.get(`draft ${now.form}`), { nodes, sign } = typed();
  if (!draft || draft.sign !== sign || Date.now() - draft.at > DRAFT_LASTS) return;
  nodes.forEach((one, place) => {
    if (one.type === "radio") one.checked = draft.values[place];
    else one.value = draft.values[place];
    if (draft.values[place]) one.dispatchEvent(new Event("change", { bubbles: true }));
  });
  const clear = async () => { clearTimeout(drafting); await set(`draft ${now.form}`, null); openForm(now.form); };
  at("keep").after(el("button", { type: "button", class: "second", onclick: clear }, "Clear"));
  showCount();
  now.isTyped = true;
}

function showCount() {
  const read = now.asks.count ? now.asks.count() : 0;
  if (read) at("keep").textContent = `Keep ${read} ${read === 1 ? "reading" : "readings"}`;
}

function openForm(name, correcting = null, given = {}) {
  clearTimeout(drafting);
  Object.assign(now, { form: name, correcting, isTyped: false });
  showKinds();
  const form = FORMS[name], asks = form.asks({ correcting });
  const who = textField("who", "Who", { longest: LONGEST_WHO });
  who.put(kept.settings.get("who") || "");
  const moment = momentField();
  const more = el("details", { class: "more" }, el("summary", {}, asks.more.length ? "More, who, when" : "Who, when"),
    ...asks.more.map((one) => one.node), who.node, moment.node);
  const heading = el("h2", { class: correcting ? "" : "unseen" }, correcting && name !== "withdrawal" ? `Correct: ${form.title.toLowerCase()}` : form.title);
  // The field typed in last stays as it is until the key is up: what it then says would move the key away.
  const held = (event) => event.preventDefault();
  const keys = el("p", { class: "keep" }, el("button", { type: "submit", id: "keep", onmousedown: held }, form.keep || "Keep"),
    correcting ? el("button", { type: "button", class: "second", onclick: () => { say(""); openForm(formsOf(now.card)[0]); } }, "Cancel") : null);
  at("form").replaceChildren(heading, ...asks.main.map((one) => one.node), more, keys);
  now.asks = asks;
  at("form").onsubmit = (event) => { event.preventDefault(); submit(form, asks, who, moment, more); };
  if (correcting && name !== "withdrawal") {
    asks.fields.forEach((field) => field.put(correcting[field.name] || "", correcting));
    if (asks.judge) asks.judge();
  }
  if (!correcting) restoreDraft();
  asks.fields.forEach((field) => { if (given[field.name]) field.put(given[field.name], given); });
  showKept();
}

async function submit(form, asks, who, moment, more) {
  const wrong = [...asks.fields, who, moment].filter((field) => field.wrong());
  if (wrong.length) {
    more.open = more.open || wrong.some((field) => more.contains(field.node));
    wrong[0].focus();
    say(`Nothing is kept yet: ${wrong.length === 1 ? "one field is" : `${wrong.length} fields are`} to be put right.`);
    return;
  }
  const made = asks.entries();
  if (!made.length) {
    say("Nothing is kept yet: type at least one reading.");
    return;
  }
  const entries = made.map((fields) => entryOf(form.kind, fields, who.read(), moment.read()));
  try {
    await keep(entries);
    clearTimeout(drafting);
    await set(`draft ${now.form}`, null);
    if (who.read() !== (kept.settings.get("who") || "")) await set("who", who.read());
  } catch (fault) {
    say(`Not kept: this phone refused (${fault.name}). Write it down, or save the file and try again.`, true);
    return;
  }
  if (navigator.storage && navigator.storage.persist) navigator.storage.persist().catch(() => false);
  const sum = entries.length === 1 ? `Kept: ${told(entries[0])}.` : `Kept: ${entries.length} entries.`;
  const what = form.kind === "withdrawal" ? "Withdrawn." : `${sum}\n${asks.summary ? asks.summary() : ""}`.trim();
  openForm(form.kind === "withdrawal" ? formsOf(now.card)[0] : now.form);
  say(what, true);
}

function entryOf(kind, fields, who, moment) {
  const before = now.correcting;
  const card = before ? before.card : now.card && now.card.id, code = before ? before.code : now.card && now.code;
  return {
    id: newId(), at: moment || (before && before.at) || stamped(new Date()), kind,
    ...(who && { who }), ...(card && { card }), ...(code && { code }), ...(before && { corrects: before.id }), ...fields,
  };
}

// The history of this card: what was read on it, and all of the kind whose form is open.
function showKept() {
  const counting = countingOf(kept.entries), kind = FORMS[now.form].kind;
  const kinds = kind === "tire" || kind === "air" ? ["tire", "air"] : [kind];
  const own = counting.filter((one) => (now.card && one.card === now.card.id) || kinds.includes(one.kind));
  at("kept").hidden = !own.length;
  const width = Math.max(150, Math.min(560, at("form").clientWidth || 328));
  at("chart").replaceChildren(...charts(now.form, own, width));
  const shown = now.isAll ? [...own] : own.slice(-MOST_SHOWN);
  const all = el("button", { type: "button", class: "second", onclick: () => { now.isAll = true; showKept(); } }, `Show all ${own.length}`);
  at("entries").replaceChildren(...shown.reverse().map(entryShown), ...(shown.length < own.length ? [el("li", {}, all)] : []));
  at("open").replaceChildren(...openFaults().filter((one) => now.card && one.card === now.card.id).map(faultShown));
  const waiting = kept.entries.filter((one) => !kept.handed.has(one.id)).length, every = kept.entries.length;
  at("hand-over").hidden = !every;
  at("waiting").textContent = `${every} ${every === 1 ? "entry" : "entries"} on this phone, ${waiting || "none"} not handed over yet.`;
  at("waiting").className = waiting ? "due" : "";
}

const MOST_SHOWN = 5;

function faultShown(fault) {
  const mend = () => { say(""); openForm("repair", null, { fault: fault.id }); };
  return el("li", {}, el("p", {}, el("strong", {}, "Open fault: "), told(fault), el("small", {}, clock(fault.at))),
    el("button", { type: "button", class: "second", "aria-label": `Repaired: ${told(fault)}`, onclick: mend }, "Repaired"));
}

function entryShown(entry) {
  const name = Object.keys(FORMS).find((one) => FORMS[one].kind === entry.kind && (one !== "tires" || entry.pressure) && one !== "withdrawal");
  const what = told(entry), handed = kept.handed.has(entry.id) ? "handed over" : "not handed over";
  const act = (label, form) => el("button", { type: "button", class: "second", "aria-label": `${label}: ${what}`, onclick: () => {
    say("");
    openForm(form, entry);
    at("form").scrollIntoView();
    at("form").querySelector("input, select, textarea").focus();
  } }, label);
  const about = [clock(entry.at), entry.who, entry.corrects && "corrected", handed].filter(Boolean).join(" · ");
  return el("li", {}, el("details", {}, el("summary", {}, el("span", {}, what, el("small", {}, about))),
    el("p", { class: "keys" }, act("Correct", name), act("Withdraw", "withdrawal"))));
}

function fileOf() {
  return new File([fileText(kept.entries)], fileName(new Date()), { type: "text/plain" });
}

async function handOver(give, said) {
  await readKept();
  const ids = kept.entries.map((one) => one.id), file = fileOf();
  try {
    await give(file);
  } catch (fault) {
    say(fault.name === "AbortError" ? "Not handed over." : `Not handed over: ${fault.message}. Save the file instead.`, true);
    return;
  }
  await markHanded(ids, stamped(new Date()));
  showKept();
  say(said(file.name), true);
}

function saved(file) {
  const link = el("a", { href: URL.createObjectURL(file), download: file.name });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}

function readyTold(text) {
  at("ready").textContent = text;
}

// Without signal the page comes from the phone; a newer edition takes over as soon as nothing typed would be lost.
function stayReady() {
  if (!("serviceWorker" in navigator) || location.protocol === "file:") {
    readyTold(location.protocol === "file:" ? "Opened from a file: entries stay in this browser." : "Opened without https: it will not open without signal.");
    return;
  }
  const isFirst = !navigator.serviceWorker.controller;
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    if (isFirst) return;
    if (!now.isTyped) location.reload();
    else at("ready").replaceChildren("A newer edition of this page is here. ", el("button", { type: "button", class: "second", onclick: () => location.reload() }, "Open it"));
  });
  navigator.serviceWorker.register("worker.js", { updateViaCache: "none" })
    .then(() => navigator.serviceWorker.ready)
    .then(() => readyTold("Kept in this phone: it opens without signal."))
    .catch(() => readyTold("This page could not be kept in the phone: it will not open without signal."));
}

async function begin() {
  at("rig").textContent = RIG.trip ? `${RIG.rig} · ${RIG.trip}` : RIG.rig;
  at("invented").hidden = !RIG.invented;
  at("said").tabIndex = -1;
  at("cards").replaceChildren(...RIG.cards.filter((one) => one.code).map((one) => el("li", {}, el("a", { href: `#${one.id}` }, `${one.id} ${one.title}`))));
  await openKept();
  const file = new File(["\n"], "log.txt", { type: "text/plain" });
  at("share").hidden = !(navigator.canShare && navigator.canShare({ files: [file] }));
  at("share").onclick = () => handOver((one) => navigator.share({ files: [one], title: one.name }), () => "Handed over. The entries stay here too.");
  at("save").onclick = () => handOver(saved, (name) => `Saved as ${name}. Send it, or copy it to the laptop.`);
  at("form").addEventListener("input", () => {
    now.isTyped = true;
    showCount();
    clearTimeout(drafting);
    if (!now.correcting) drafting = setTimeout(saveDraft, TYPING);
  });
  addEventListener("beforeunload", (event) => { if (now.isTyped && !kept.isLasting) event.preventDefault(); });
  addEventListener("hashchange", () => { say(""); route(); });
  document.addEventListener("visibilitychange", async () => { if (!document.hidden) { await readKept(); showKept(); } });
  route();
  if (!kept.isLasting) say("This browser keeps nothing: hand over before you close it.");
  stayReady();
}

begin();
