"use strict";
// The forms: which a card opens with, what each asks, and what it makes of the answers.

// By the name of what makes the card; the first stands open. All others are one touch further.
const CARD_FORMS = {
  leaving: ["meter", "tires", "fault"],
  every_stop: ["fault", "tires", "fill"],
  tires: ["tires", "air", "fault", "weighing"],
  coupling: ["fault", "note", "spare"],
  day_sheet: ["fill", "meter", "note"],
  breakdown: ["fault", "repair", "spare"],
  towing: ["meter", "fault", "note"],
  tire_failure: ["fault", "tires", "spare"],
  fire: ["fault", "spare", "note"],
  brakes_and_grades: ["fault", "tires", "weighing"],
  sitting_out: ["fill", "meter", "fault"],
  windshield_slip: ["meter", "fill", "weighing"],
};
const OTHER_CARD = ["note", "fault", "repair"];
const EVERY_FORM = ["tires", "air", "tread", "fill", "meter", "fault", "repair", "service", "spare", "weighing", "note"];

const STATE = [{ value: "cold", text: "Cold" }, { value: "hot", text: "Just driven" }];
const BY = [{ value: "gauge", text: "Gauge" }, { value: "sensor", text: "Sensor" }];

const FORMS = {
  tires: { title: "Pressures", kind: "tire", asks: (form) => walk(form, "pressure") },
  tread: { title: "Tread", kind: "tire", asks: (form) => walk(form, "tread") },
  air: { title: "Air added", kind: "air", asks: askAir },
  fill: { title: "Fill", kind: "fill", asks: askFill },
  meter: { title: "Meters", kind: "meter", asks: askMeters },
  fault: { title: "Fault", kind: "fault", asks: (form) => askWords(form, "what", "What is wrong") },
  repair: { title: "Repair", kind: "repair", asks: askRepair },
  service: { title: "Service", kind: "service", asks: askService },
  spare: { title: "Spare", kind: "spare", asks: askSpare },
  weighing: { title: "Weighing", kind: "weight", asks: askWeighing },
  note: { title: "Note", kind: "note", asks: (form) => askWords(form, "text", "Note") },
  withdrawal: { title: "Withdraw an entry", kind: "withdrawal", keep: "Withdraw it", asks: askWithdrawal },
};

// What a form asks: `main` fields in order, `more` that may be left out, and `entries` that it makes of them.
// Fields of a plain form go into one entry by their names.
function asking(main, more = []) {
  const fields = [...main, ...more];
  return { main, more, fields, entries: () => [Object.assign({}, ...fields.map(said))] };
}

function said(field) {
  if (field.says) return field.says();
  const text = field.read();
  return text ? { [field.name]: text } : {};
}

function weather(kind) {
  return [numberField(kind, "ambient", "Air temperature"), numberField(kind, "elevation", "Elevation")];
}

// Where something is: a vehicle, or one tire of it.
function placeField(name, label, { tires = true, vehicles = true, needed = false, empty = "" } = {}) {
  const options = vehicles ? RIG.vehicles.map((one) => ({ value: JSON.stringify([one, ""]), text: one })) : [];
  for (const axle of tires ? RIG.axles : []) {
    options.push(...axle.tires.map((tire) => ({
      value: JSON.stringify([axle.vehicle, tire]), text: [axle.vehicle, tire].filter(Boolean).join(" "),
    })));
  }
  const field = selectField(name, label, options, { needed, empty });
  field.says = () => {
    const [vehicle, position] = JSON.parse(field.read() || '["",""]');
    return { ...(vehicle && { vehicle }), ...(position && { position }) };
  };
  field.put = (_, entry) => { field.control.value = JSON.stringify([entry.vehicle || "", entry.position || ""]); };
  return field;
}

function axleOf(vehicle, position) {
  return RIG.axles.find((one) => one.vehicle === (vehicle || "") && one.tires.includes(position));
}

// A judgment beside what it is of: read aloud when it changes, not with every key.
function verdict(of) {
  const node = el("output", { class: "verdict", for: of });
  let shown = "";
  node.show = (judgment) => {
    const text = judgment ? `${judgment.word} ${judgment.say}` : "";
    if (text === shown) return;
    shown = text;
    node.className = judgment ? `verdict ${judgment.word.toLowerCase().replace(/ /g, "-")}` : "verdict";
    node.replaceChildren(...(judgment ? [el("strong", {}, judgment.word), " ", el("span", {}, judgment.say)] : []));
  };
  return node;
}

// Around the rig, tire by tire, in the order the rig lists them; each that was read makes an entry.
function walk(form, what) {
  const state = choiceField("state", "The tires are", STATE, { needed: what === "pressure", changed: () => judgeAll() });
  const by = choiceField("by", "Read with", BY, { initial: kept.settings.get("by") || "gauge" });
  const axles = RIG.axles.map((axle) => walkedAxle(axle, what, () => state.read(), form.correcting)).filter(Boolean);
  const rows = axles.flatMap((one) => one.rows);
  const readRows = () => rows.filter((row) => row.read());
  const judgeAll = () => axles.forEach((one) => one.judge(true));
  const isPressure = what === "pressure";
  const more = isPressure ? weather("tire") : [];
  const shared = isPressure ? [state, by, ...more] : [];
  return {
    main: [...(isPressure ? [state] : []), ...axles], more: isPressure ? [by, ...more] : [],
    fields: [...(isPressure ? [state, by] : []), ...rows, ...more],
    count: () => readRows().length,
    summary: () => {
      judgeAll();
      const named = (row) => (RIG.vehicles.length > 1 && row.place.vehicle ? `${row.place.vehicle} ` : "") + row.place.position;
      const grave = [STOP, FLAT, OVER, ADD, UNKNOWN].flatMap((word) => {
        const told = readRows().filter((row) => row.word() === word).map(named);
        return told.length ? [`${word}: ${told.join(", ")}.`] : [];
      });
      return [...grave, ...axles.map((one) => one.apart()).filter(Boolean)].join("\n");
    },
    entries: () => {
      const same = Object.assign({}, ...shared.map(said));
      const others = form.correcting && !isPressure ? {} : same;
      if (isPressure) set("by", by.read());
      return readRows().map((row) => ({ ...row.place, [what]: row.read(), ...others }));
    },
    judge: judgeAll,
  };
}

function walkedAxle(axle, what, state, correcting) {
  const isPressure = what === "pressure";
  const places = axle.tires.filter((one) => !correcting || (correcting.position === one && (correcting.vehicle || "") === axle.vehicle));
  if (!places.length) return null;
  const mates = verdict(""), measure = RIG.measures.tire[what].unit.replace("/", "1/");
  const limits = el("p", { class: "limits" });
  let told = null;
  const judge = (isAll) => {
    if (!isPressure) return;
    limits.replaceChildren(...limitsTold(axle, state()).map((text) => el("span", {}, text)));
    if (isAll) rows.forEach((row) => row.judge());
    const read = rows.filter((row) => row.value() !== null).map((row) => ({ name: row.place.position, value: row.value() }));
    told = judgedMates(axle, read, state());
    mates.show(told);
  };
  const rows = places.map((tire) => tireRow(axle, tire, what, state, () => judge(false)));
  judge(false);
  const node = el("fieldset", { class: "axle" }, el("legend", {}, `${begun(axle.name)}, ${measure}`), isPressure ? limits : null, ...rows.map((row) => row.node), isPressure ? mates : null);
  return { node, rows, judge, apart: () => (told && told.word === APART ? told.say : "") };
}

const TYPING = 700; // Milliseconds after the last key, until what stands there is meant.

function tireRow(axle, tire, what, state, changed) {
  const measure = RIG.measures.tire[what], id = newName();
  const control = el("input", {
    id, type: "text", inputmode: "decimal", autocomplete: "off", enterkeyhint: "next", maxlength: 9,
    class: "reading", "aria-describedby": `${id}-wrong`,
  });
  const shown = verdict(id), told = el("p", { id: `${id}-wrong`, class: "wrong" });
  const node = el("div", { class: "tire" }, el("label", { for: id }, begun(tire)),
    el("div", { class: "beside" }, control, what === "pressure" ? shown : el("span", { class: "unit" }, measure.unit)), told);
  const row = {
    node, told, name: what, place: { ...(axle.vehicle && { vehicle: axle.vehicle }), position: tire },
    read: () => (control.value.trim() ? withUnit(readNumber(control.value), measure.unit) : ""),
    put: (text) => { control.value = /^[\d.]+/.exec(text)?.[0] || ""; },
    focus: () => control.focus(),
    value: () => (control.value.trim() && !numberWrong(control.value, measure) ? Number(readNumber(control.value)) : null),
    word: () => (row.judgment ? row.judgment.word : ""),
    judge: () => {
      const value = row.value();
      const open = { word: "?", say: "Say first: cold, or just driven." };
      row.judgment = what !== "pressure" || value === null ? null : state() ? judged(axle, value, state()) : open;
      shown.show(row.judgment);
    },
  };
  checked(row, control, (text) => numberWrong(text, measure), false);
  whenMeant(control, () => { row.wrong(); row.judge(); changed(); });
  return row;
}

function whenMeant(node, act) {
  let waiting = 0;
  const meant = () => { clearTimeout(waiting); act(); };
  node.addEventListener("input", () => { clearTimeout(waiting); waiting = setTimeout(meant, TYPING); });
  node.addEventListener("change", meant);
}

function askAir(form) {
  const place = placeField("place", "Which tire", { vehicles: false, needed: true });
  const state = choiceField("state", "The tire is", STATE, { needed: true, changed: () => judge() });
  const by = choiceField("by", "Read with", BY, { initial: kept.settings.get("by") || "gauge" });
  const before = numberField("air", "before", "Before", { needed: true });
  const after = numberField("air", "after", "After", { needed: true });
  const shown = verdict("");
  const judge = () => {
    const { vehicle, position } = place.says(), axle = position && axleOf(vehicle, position);
    const text = after.node.querySelector("input").value;
    const isReadable = text.trim() && !numberWrong(text, RIG.measures.air.after);
    shown.show(axle && isReadable && state.read() ? judged(axle, Number(readNumber(text)), state.read()) : null);
  };
  for (const field of [place, after]) field.node.addEventListener("change", judge);
  const asks = asking([place, state, by, before, after], weather("air"));
  return { ...asks, main: [...asks.main, { node: shown }] };
}

function askFill() {
  const areMany = new Set(RIG.tanks.map((one) => one.vehicle)).size > 1;
  const tanks = RIG.tanks.map((one, at) => ({ value: String(at), text: areMany ? `${one.vehicle} ${one.tank}` : one.tank }));
  const tank = choiceField("tank", "Tank", tanks, { needed: true });
  tank.says = () => { const { vehicle, tank: name } = RIG.tanks[tank.read()]; return { vehicle, tank: name }; };
  const put = tank.put;
  tank.put = (text, entry) => put(String(RIG.tanks.findIndex((one) => one.tank === text && one.vehicle === entry.vehicle)));
  const note = (text) => {
    const held = RIG.tanks[tank.read()]?.capacity, number = Number(readNumber(text));
    return held && number > held ? `More than the tank holds, ${held}. Is it right?` : "";
  };
  const amount = numberField("fill", "amount", "How much went in", { needed: true, note });
  const full = choiceField("full", "Filled", [{ value: "true", text: "To the top" }, { value: "false", text: "Not full" }], { needed: true });
  const odometer = numberField("fill", "odometer", "Odometer", { note: lower("odometer", () => RIG.tanks[tank.read()]?.vehicle) });
  return asking([tank, amount, full, odometer], [numberField("fill", "hours", "Hours of what burns it")]);
}

// A meter that reads less than it did is told; it may be a new one.
function lower(meter, vehicle) {
  return (text) => {
    const before = RIG.meters[vehicle()]?.[meter], number = readNumber(text);
    return before && number !== null && Number(number) < before ? `Less than it read before, ${before}. Is it right?` : "";
  };
}

function askMeters(form) {
  const labels = { odometer: "Odometer", engine: "Engine hours", generator: "Generator hours" };
  const told = el("p", { class: "wrong", id: newName() });
  const groups = RIG.vehicles.filter((one) => Object.keys(RIG.meters[one]).length && (!form.correcting || form.correcting.vehicle === one)).map((vehicle) => {
    const fields = Object.keys(RIG.meters[vehicle]).map((meter) => numberField("meter", meter, labels[meter], { note: lower(meter, () => vehicle) }));
    return { vehicle, fields, node: el("fieldset", { class: "axle" }, el("legend", {}, begun(vehicle)), ...fields.map((one) => one.node)) };
  });
  const fields = groups.flatMap((one) => one.fields);
  const some = {
    node: told, focus: () => fields[0].focus(), read: () => "", put: () => {},
    wrong: () => (told.textContent = fields.some((one) => one.read()) ? "" : "Type what at least one meter reads."),
  };
  return {
    main: [...groups, some], more: [], fields: [...fields, some],
    entries: () => groups.map((one) => ({ vehicle: one.vehicle, ...Object.assign({}, ...one.fields.map(said)) })).filter((one) => Object.keys(one).length > 1),
  };
}

function askWords(form, name, label) {
  return asking([textField(name, label, { needed: true, rows: 3, longest: LONGEST_WORDS }), placeField("place", "Where")]);
}

function askRepair() {
  const faults = openFaults().map((one) => ({ value: one.id, text: told(one).slice(0, 80) }));
  const fault = selectField("fault", "Which fault", faults, { empty: faults.length ? "None of these" : "None is open here" });
  return asking([fault, textField("what", "What was done", { needed: true, rows: 3, longest: LONGEST_WORDS }), placeField("place", "Vehicle", { tires: false })]);
}

// Faults that count and that no repair names: of this phone, and of the log when the page was made.
function openFaults() {
  const counting = countingOf(kept.entries);
  const repaired = new Set(counting.filter((one) => one.kind === "repair").map((one) => one.fault));
  const known = new Set(kept.entries.map((one) => one.id));
  const faults = [...(RIG.faults || []).filter((one) => !known.has(one.id)), ...counting.filter((one) => one.kind === "fault")];
  return faults.filter((one) => !repaired.has(one.id));
}

function askService() {
  const what = namedField("what", "What was done", RIG.service, { needed: true });
  const place = placeField("place", "Vehicle", { tires: false });
  const odometer = numberField("service", "odometer", "Odometer", { note: lower("odometer", () => place.says().vehicle) });
  return asking([what, place, odometer, numberField("service", "hours", "Hours of its meter")]);
}

function askSpare() {
  const change = choiceField("change", "It was", [{ value: "used", text: "Used" }, { value: "bought", text: "Bought" }], { needed: true });
  const what = namedField("what", "What", RIG.spares, { needed: true });
  const amount = (text) => (/^[0-9]+(\.[0-9]+)?( [^\W\d].*)?$/.test(text) ? "" : "Type a number, like 2 or 1 set.");
  const quantity = textField("quantity", "How many", { longest: 40, check: amount });
  return asking([change, what, quantity, placeField("place", "For which vehicle", { tires: false })]);
}

const ENDS = [{ value: "axles", text: "Axles" }, { value: "ends", text: "Wheel ends" }];
const STOOD = {
  coupled: ["The vehicles stood", [{ value: "true", text: "Coupled" }, { value: "false", text: "Apart" }]],
  slides: ["Slides", [{ value: "in", text: "In" }, { value: "out", text: "Out" }]],
  ride_height: ["At ride height", [{ value: "true", text: "Yes" }, { value: "false", text: "No" }]],
};
const LIGHTER = "take weight off, or carry less water", MOVED = "take weight off, carry less water, or move it to another axle";

// What stood on the scale, in one entry: whatever was weighed, and the state it was weighed in.
function askWeighing() {
  const isOfEnds = (entry) => Object.values(entry.weights).flatMap(Object.values).some((one) => one.left || one.right);
  const ends = deeper(choiceField("ends", "Weighed", ENDS, { initial: "axles", changed: () => judge() }), (entry) => (isOfEnds(entry) ? "ends" : "axles"));
  const step = numberField("weight", "division", "Smallest step of the scale");
  const scale = { hasEnds: () => ends.read() === "ends", step: () => step.value() ?? RIG.weighing.step };
  const vehicles = RIG.weighing.vehicles.map((one) => weighedVehicle(one, scale));
  const levels = RIG.weighing.vehicles.filter((one) => one.tanks.length).map(levelsOf);
  const state = RIG.weighing.state.map((name) => deeper(choiceField(name, ...STOOD[name]), (entry) => entry.state?.[name]));
  const aboard = askAboard(), groups = [...vehicles, ...levels];
  const judge = () => vehicles.forEach((one) => one.judge());
  judge();
  whenMeant(step.node, judge);
  return {
    main: [ends, ...vehicles, step, ...levels, ...state, aboard], more: [], judge,
    fields: [ends, step, ...groups.flatMap((one) => one.fields), ...state, ...aboard.fields],
    summary: () => vehicles.flatMap((one) => one.heavy()).map((name) => `${HEAVY}: ${name}.`).join("\n"),
    entries: () => {
      const of = (held) => block(held.map((one) => [one.vehicle, one.says()]));
      const entry = { weights: of(vehicles), division: step.read(), aboard: aboard.says(), levels: of(levels), state: block(state.map((one) => [one.name, one.read()])) };
      return Object.keys(entry.weights).length ? [block(Object.entries(entry))] : [];
    },
  };
}

// Of names and values those that say something; a list does, even of nothing.
function block(pairs) {
  return Object.fromEntries(pairs.filter(([, one]) => one && (typeof one === "string" || Array.isArray(one) || Object.keys(one).length)));
}

// A field of what stands deeper in an entry.
function deeper(field, found) {
  const { put } = field;
  return Object.assign(field, { put: (_, entry) => put(found(entry) || "") });
}

// A field that says nothing, and has nothing wrong, while it is not shown.
function whileShown(field, isShown) {
  const { read, value, wrong } = field;
  return Object.assign(field, { read: () => (isShown() ? read() : ""), value: () => (isShown() ? value() : null), wrong: () => (isShown() ? wrong() : "") });
}

function weightField(label, found, agrees) {
  return deeper(numberField("weight", label, label, { measure: RIG.weighing.each, agrees }), found);
}

// One or several weights, with their rating, what the parts of the last make, and what is certain of it.
function ratedWeights(name, fields, { rating, less, parts }) {
  const sum = el("output", { class: "sum" }), shown = verdict(""), last = fields[fields.length - 1];
  const ends = el("div", {}, ...fields.slice(0, -1).map((one) => one.node));
  const rated = rating === null ? "rating not known" : `rating ${weighed(Math.floor(rating))}`;
  const box = {
    fields, heavy: () => (box.isHeavy ? [name] : []),
    node: el("fieldset", { class: "axle rows" }, el("legend", {}, begun(name)), el("p", { class: "limits" }, rated), ends, sum, last.node, shown),
    judge: (weight, made, isShown = true) => {
      const judgment = judgedWeight(weight, rating, less);
      ends.hidden = !isShown;
      sum.textContent = made === null ? "" : `${parts}: ${weighed(made)}`;
      box.isHeavy = Boolean(judgment);
      shown.show(judgment);
      if (last.value() !== null) last.wrong();
    },
  };
  return box;
}

function weighedAxle(vehicle, { axle, rating }, scale) {
  const found = (name) => (entry) => entry.weights[vehicle]?.[axle]?.[name];
  const [left, right] = ["left", "right"].map((name) => whileShown(weightField(begun(name), found(name)), scale.hasEnds));
  const whole = weightField("Axle", found("axle"), () => endsWrong(left.value(), right.value(), whole.value(), scale.step()));
  const told = { rating, less: MOVED, parts: "Left and right" };
  const box = ratedWeights(RIG.vehicles.length > 1 ? `${vehicle}, ${axle}` : axle, [left, right, whole], told);
  const read = () => [left, right].map((one) => one.value()).filter((one) => one !== null);
  const both = () => (read().length === 2 ? summed(read()) : null), least = () => whole.value() ?? (read().length ? summed(read()) : null);
  const says = () => block([["left", left.read()], ["right", right.read()], ["axle", whole.read()]]);
  return { ...box, says, least, value: () => whole.value() ?? both(), judge: () => box.judge(least(), both(), scale.hasEnds()) };
}

function weighedVehicle({ vehicle, rating, axles }, scale) {
  const rows = axles.map((one) => weighedAxle(vehicle, one, scale)), values = () => rows.map((one) => one.value());
  const total = weightField("Total", (entry) => entry.weights[vehicle]?.total, () => totalWrong(values(), total.value(), scale.step()));
  const whole = ratedWeights(RIG.vehicles.length > 1 ? `${vehicle}, total` : "total", [total], { rating, less: LIGHTER, parts: "Its axles" });
  const judge = () => {
    rows.forEach((one) => one.judge());
    const read = rows.map((one) => one.least()).filter((one) => one !== null), isWhole = rows.length && !values().includes(null);
    whole.judge(Math.max(total.value(), summed(read)), isWhole ? summed(read) : null);
  };
  const node = el("div", {}, ...rows.map((one) => one.node), whole.node);
  whenMeant(node, judge);
  return {
    vehicle, node, judge, fields: [...rows.flatMap((one) => one.fields), total],
    heavy: () => [...rows, whole].flatMap((one) => one.heavy()),
    says: () => block([...axles.map((one, at) => [one.axle, rows[at].says()]), ["total", total.read()]]),
  };
}

function levelsOf({ vehicle, tanks }) {
  const fields = tanks.map((one) => deeper(levelField(one), (entry) => entry.levels?.[vehicle]?.[one.tank]));
  const title = RIG.vehicles.length > 1 ? `${vehicle}, how full` : "how full";
  return {
    vehicle, fields, says: () => block(tanks.map((one, at) => [one.tank, fields[at].read()])),
    node: el("fieldset", { class: "axle rows" }, el("legend", {}, begun(title)), ...fields.map((one) => one.node)),
  };
}

const MOST_ABOARD = 6;

// Who and what was aboard that is not always: nothing, or some, of which a place is shown as the one before is used.
function askAboard() {
  const options = [{ value: "none", text: "Nothing" }, { value: "some", text: "Something" }];
  const whether = deeper(choiceField("aboard", "Aboard that is not always in it", options, { changed: () => shown() }), ({ aboard }) => aboard && (aboard.length ? "some" : "none"));
  const rows = Array.from({ length: MOST_ABOARD }, (_, at) => aboardRow(at, () => whether.read() === "some"));
  const shown = () => rows.forEach((one, at) => { one.node.hidden = whether.read() !== "some" || (at > 0 && !rows[at - 1].isUsed() && !one.isUsed()); });
  const node = el("div", {}, whether.node, ...rows.map((one) => one.node));
  shown();
  whenMeant(node, shown);
  return {
    node, fields: [whether, ...rows.flatMap((one) => one.fields)],
    says: () => (whether.read() === "none" ? [] : whether.read() ? rows.filter((one) => one.isUsed()).map((one) => one.says()) : ""),
  };
}

function aboardRow(at, isAsked) {
  const found = (name) => ({ aboard }) => aboard?.[at]?.[name];
  const weight = whileShown(weightField("Its weight", found("weight")), isAsked), isWeighed = () => Boolean(weight.read());
  const what = whileShown(deeper(textField("what", "Who or what", { needed: true }), found("what")), () => isAsked() && (at === 0 || isWeighed() || Boolean(what.control.value)));
  const isUsed = () => isAsked() && Boolean(what.read() || isWeighed());
  const places = RIG.vehicles.map((one) => ({ value: one, text: one }));
  const inside = whileShown(deeper(selectField("in", "In which", places, { needed: true }), found("in")), isUsed);
  const fields = [what, weight, ...(places.length > 1 ? [inside] : [])];
  return {
    fields, isUsed, node: el("fieldset", { class: "axle rows" }, el("legend", {}, `Aboard, ${at + 1}`), ...fields.map((one) => one.node)),
    says: () => block([["what", what.read()], ["weight", weight.read()], ["in", places.length > 1 ? inside.read() : places[0].value]]),
  };
}

function askWithdrawal(form) {
  const what = el("p", { class: "quote" }, told(form.correcting));
  const why = textField("why", "Why, if you like", { longest: LONGEST_WORDS });
  const asks = asking([why]);
  return { ...asks, main: [{ node: what }, why] };
}
