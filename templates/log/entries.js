"use strict";
// Entries as the log keeps them: ids, times, which of them count, and the file that hands them over.

const ENVELOPE = ["id", "at", "kind", "who", "card", "code", "corrects"];

let lastMade = 0;

// UUID version 7 (RFC 9562, 5.7): sorts by the moment it was made, also where two are made in one.
function newId() {
  lastMade = Math.max(Date.now(), lastMade + 1);
  const bytes = crypto.getRandomValues(new Uint8Array(10));
  bytes[0] = 0x70 | (bytes[0] & 0x0f);
  bytes[2] = 0x80 | (bytes[2] & 0x3f);
  const hex = lastMade.toString(16).padStart(12, "0")
    + Array.from(bytes, (one) => one.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

// An id that is kept already is never made again, even where the clock went back.
function seenId(id) {
  lastMade = Math.max(lastMade, madeAt(id));
}

function madeAt(id) {
  return parseInt(id.slice(0, 8) + id.slice(9, 13), 16);
}

// A moment with the offset that the phone's zone had then.
function stamped(moment) {
  const two = (number) => String(Math.abs(number)).padStart(2, "0");
  const offset = -moment.getTimezoneOffset();
  const day = [moment.getFullYear(), two(moment.getMonth() + 1), two(moment.getDate())].join("-");
  const time = [two(moment.getHours()), two(moment.getMinutes()), two(moment.getSeconds())].join(":");
  return `${day}T${time}${offset < 0 ? "-" : "+"}${two(Math.trunc(offset / 60))}:${two(offset % 60)}`;
}

// Those that count: of an entry and its corrections the one made last, unless it withdraws them all.
function countingOf(entries) {
  const corrects = new Map(entries.filter((one) => one.corrects).map((one) => [one.id, one.corrects]));
  const corrected = new Set(corrects.values());
  const last = new Map();
  for (const one of entries) {
    if (corrected.has(one.id)) continue;
    let first = one.id;
    while (corrects.has(first)) first = corrects.get(first);
    const other = last.get(first);
    if (!other || madeAt(one.id) > madeAt(other.id) || (madeAt(one.id) === madeAt(other.id) && one.id > other.id)) {
      last.set(first, one);
    }
  }
  return [...last.values()]
    .filter((one) => one.kind !== "withdrawal")
    .sort((one, other) => Date.parse(one.at) - Date.parse(other.at) || (one.id < other.id ? -1 : 1));
}

// The form that `binder log import` reads: JSON Lines, the first of which says whose log it is.
function fileText(entries) {
  const lines = [{ format: "rig log", version: 1, rig: RIG.rig }, ...entries];
  return lines.map((one) => JSON.stringify(one)).join("\n") + "\n";
}

function fileName(now) {
  const plain = RIG.rig.toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "") || "rig";
  return `${plain}-log-${stamped(now).slice(0, 16).replace("T", "-").replace(":", "")}.txt`;
}

const STATES = {
  "coupled true": "coupled", "coupled false": "apart", "ride_height true": "at ride height", "ride_height false": "not at ride height",
};

// What stands in a block of an entry, by the names that tell it.
function blockTold(name, value) {
  if (Array.isArray(value)) return value.length ? value.map((one) => `${name}: ${blockTold("", one).join(", ")}`) : [`${name}: nothing`];
  return Object.entries(value).flatMap(([inner, one], place) => {
    if (typeof one === "object") return blockTold("", one).map((text, at) => (at ? text : `${inner} ${text}`));
    const isItself = inner === "what" || inner === "weight" || (inner === "axle" && place === 0);
    return isItself ? one : STATES[`${inner} ${one}`] || `${inner} ${one}`;
  });
}

// What an entry says, in a line.
function told(entry) {
  const where = [entry.vehicle, entry.position].filter(Boolean).join(" ");
  const itself = new Set(["what", "text", "tank", "amount", "pressure", "state", "by", "change", "quantity", "tread"]);
  const parts = where ? [where] : [];
  for (const [name, value] of Object.entries(entry)) {
    if (ENVELOPE.includes(name) || name === "vehicle" || name === "position") continue;
    if (name === "full") parts.push(value === "true" ? "full" : "not full");
    else if (name === "fault") parts.push("repairs a fault");
    else if (typeof value === "object") parts.push(...blockTold(name, value));
    else parts.push(itself.has(name) ? value : `${name} ${value}`);
  }
  return parts.join(", ");
}
