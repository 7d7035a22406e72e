"use strict";
// Fields of a form: each has its node, `read` for what it says ("" is nothing), `wrong` for what is wrong with
// it in words ("" is nothing), and `put` to fill it in. Whatever people wrote goes in as text, never as markup.

let count = 0;

function el(tag, attributes, ...children) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes || {})) {
    if (name.startsWith("on")) node.addEventListener(name.slice(2), value);
    else if (value === true) node.setAttribute(name, "");
    else if (value !== false && value !== undefined && value !== null) node.setAttribute(name, value);
  }
  node.append(...children.filter((child) => child !== null && child !== undefined && child !== ""));
  return node;
}

function newName() {
  count += 1;
  return `f${count}`;
}

// A number as a hand types it: with a point or a comma, thousands set apart or not.
function readNumber(text) {
  const bare = text.replace(/[\s\u00a0\u202f]/g, "").replace("\u2212", "-");
  const whole = /^-?\d{1,3}(,\d{3})+(\.\d+)?$/.test(bare) ? bare.replace(/,/g, "") : bare.replace(",", ".");
  return /^-?\d{1,9}(\.\d{1,6})?$/.test(whole) ? whole : null;
}

const WRITTEN_UNITS = { "°F": "degF", "°C": "degC" };

function withUnit(number, unit) {
  return unit.startsWith("/") ? number + unit : `${number} ${WRITTEN_UNITS[unit] || unit}`;
}

function numberWrong(text, measure) {
  const number = readNumber(text);
  const { unit, least, most } = measure;
  if (/^\d[\d.,\s]*[a-z]+$/i.test(text.trim())) return `Type digits only, in ${unit.replace("/", "1/")}.`;
  if (number === null) return `\u201c${text.trim().slice(0, 20)}\u201d is no number. Type digits only.`;
  if (unit.startsWith("/") && !/^\d+$/.test(number)) return "Type whole numbers of 1/32 in.";
  if (number < least || number > most) {
    return `${number} can hardly be right. It is between ${least} and ${most} ${unit.replace("/", "1/")}.`;
  }
  return "";
}

// A label over a line with the control, and under it what is wrong.
function framed(id, label, line, hint) {
  const wrong = el("p", { id: `${id}-wrong`, class: "wrong" });
  const node = el("div", { class: "field" }, el("label", { for: id }, label), line, hint || null, wrong);
  return { node, wrong };
}

function tell(field, control, wrong) {
  field.told.textContent = wrong;
  if (wrong) control.setAttribute("aria-invalid", "true");
  else control.removeAttribute("aria-invalid");
}

function checked(field, control, check, isNeeded) {
  field.wrong = () => {
    const text = control.value.trim();
    const wrong = text ? check(text) : isNeeded ? "This is needed." : "";
    tell(field, control, wrong);
    return wrong;
  };
  field.focus = () => control.focus();
  control.addEventListener("change", () => field.wrong());
  return field;
}

function numberField(kind, name, label, { needed = false, note = null, measure = RIG.measures[kind][name], agrees = () => "" } = {}) {
  const id = newName();
  const control = el("input", {
    id, type: "text", inputmode: measure.least < 0 ? undefined : "decimal", autocomplete: "off",
    enterkeyhint: "next", maxlength: 16, "aria-describedby": `${id}-wrong`,
    "aria-required": needed ? "true" : undefined,
  });
  const hint = note ? el("p", { class: "hint", role: "status" }) : null;
  const line = el("div", { class: "line" }, control, el("span", { class: "unit" }, measure.unit));
  const { node, wrong } = framed(id, label, line, hint);
  if (note) control.addEventListener("change", () => { hint.textContent = note(control.value); });
  return checked({
    node, told: wrong, name,
    read: () => (control.value.trim() ? withUnit(readNumber(control.value), measure.unit) : ""),
    value: () => (control.value.trim() && !numberWrong(control.value, measure) ? Number(readNumber(control.value)) : null),
    put: (text) => { control.value = /^-?[\d.,]+/.exec(text)?.[0] || ""; },
  }, control, (text) => numberWrong(text, measure) || agrees(), needed);
}

const LONGEST_NAME = 200, LONGEST_WORDS = 4000, LONGEST_WHO = 100;

// Text as it may be kept: no commands of a terminal, no half letters.
function plainText(text) {
  const whole = text.toWellFormed ? text.toWellFormed() : text;
  return whole.replace(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u2028\u2029]/g, " ").trim();
}

function textField(name, label, { needed = false, rows = 0, longest = LONGEST_NAME, check = () => "" } = {}) {
  const id = newName();
  const shared = { id, maxlength: longest, "aria-describedby": `${id}-wrong`, "aria-required": needed ? "true" : undefined };
  const control = rows ? el("textarea", { ...shared, rows }) : el("input", { ...shared, type: "text", autocomplete: "off" });
  const { node, wrong } = framed(id, label, control);
  return checked({
    node, told: wrong, name, control,
    read: () => plainText(control.value),
    put: (text) => { control.value = text; },
  }, control, check, needed);
}

function selectField(name, label, options, { needed = false, empty = "" } = {}) {
  const id = newName();
  const every = [{ value: "", text: empty || (needed ? "Choose" : "Not said") }, ...options];
  const control = el("select", { id, "aria-describedby": `${id}-wrong`, "aria-required": needed ? "true" : undefined },
    ...every.map((one) => el("option", { value: one.value }, one.text)));
  const { node, wrong } = framed(id, label, control);
  return checked({
    node, told: wrong, name, control,
    read: () => control.value,
    put: (text) => { control.value = text; },
  }, control, () => "", needed);
}

// One of the rig's own names, or words of one's own.
function namedField(name, label, names, options, inWords = `${label}: in words`) {
  const other = textField(name, inWords, options);
  if (!names.length) return other;
  const choice = selectField(name, label, [...names.map((text) => ({ value: text, text })), { value: "\n", text: "Something else" }], options);
  const isOther = () => choice.control.value === "\n";
  const shown = () => { other.node.hidden = !isOther(); };
  choice.control.addEventListener("change", shown);
  shown();
  return {
    node: el("div", {}, choice.node, other.node), name,
    read: () => (isOther() ? other.read() : choice.read()),
    wrong: () => (isOther() ? other.wrong() : choice.wrong()),
    focus: () => (isOther() ? other : choice).focus(),
    put: (text) => {
      choice.put(names.includes(text) ? text : text ? "\n" : "");
      other.put(names.includes(text) ? "" : text);
      shown();
    },
  };
}

function choiceField(name, label, options, { needed = false, initial = "", changed = () => {} } = {}) {
  const group = newName();
  const radios = options.map((one) => el("input", {
    type: "radio", name: group, value: one.value, checked: one.value === initial, id: newName(),
  }));
  const told = el("p", { id: `${group}-wrong`, class: "wrong" });
  const node = el("fieldset", { class: "field", "aria-describedby": `${group}-wrong` }, el("legend", {}, label),
    el("div", { class: "choices" }, ...radios.map((radio, at) => el("label", { class: "choice" }, radio, el("span", {}, options[at].text)))), told);
  const field = {
    node, told, name,
    read: () => radios.find((one) => one.checked)?.value || "",
    put: (text) => { radios.forEach((one) => { one.checked = one.value === text; }); changed(); },
    wrong: () => {
      told.textContent = needed && !field.read() ? `Say which: ${options.map((one) => one.text.toLowerCase()).join(" or ")}.` : "";
      return told.textContent;
    },
    focus: () => radios[0].focus(),
  };
  node.addEventListener("change", () => { field.wrong(); changed(); });
  return field;
}

// How full a tank is, as a profile writes it; null where it is no such level.
function readLevel(text) {
  const { unit } = RIG.measures.fill.amount, [, number, word] = /^([\d.,]+) ?(%|[a-z]+)$/i.exec(text) || [];
  const [, part, whole] = /^(\d{1,3})\/(\d{1,3})$/.exec(text) || [], amount = number ? readNumber(number) : null;
  if (LEVELS.includes(text) || (Number(whole) && Number(part) <= Number(whole))) return text;
  if (amount === null || (word === "%" && amount > 100)) return null;
  return word === "%" || word.toLowerCase() === unit.toLowerCase() ? `${amount} ${word === "%" ? word : unit}` : null;
}

const LEVELS = ["empty", "1/4", "1/2", "3/4", "full"];

function levelField(tank) {
  const { unit } = RIG.measures.fill.amount;
  const check = (text) => {
    const level = readLevel(text);
    if (level === null) return `Type it like 2/3, 60 % or 30 ${unit}.`;
    return tank.holds !== null && level.endsWith(unit) && parseFloat(level) > tank.holds ? `More than the tank holds, ${round(tank.holds)} ${unit}.` : "";
  };
  const field = namedField("levels", begun(tank.tank), LEVELS, { check }, `${begun(tank.tank)}: like 2/3, 60 % or 30 ${unit}`);
  const { read } = field;
  return Object.assign(field, { read: () => read() && readLevel(read()) });
}

// The moment of what is entered: now, or a time that is typed.
function momentField() {
  const id = newName();
  const control = el("input", { id, type: "datetime-local", "aria-describedby": `${id}-wrong` });
  const { node, wrong } = framed(id, "When, if not now", control);
  return checked({ node, told: wrong, name: "at", read: () => (control.value ? stamped(new Date(control.value)) : ""), put: () => {} },
    control, () => (Number.isNaN(new Date(control.value).getTime()) ? "This is no time." : ""), false);
}
