"use strict";
// What a reading means, by the limits of the tires card as they were printed: numbers in, words out.
// A limit that is not known never lets a reading pass as good.

const FLAT = "FLAT", ADD = "ADD", GO = "GO", OVER = "OVER", APART = "APART";
const UNKNOWN = "NOT KNOWN", STOP = "DO NOT MOVE", HEAVY = "TOO HEAVY";

function judged(axle, value, state) {
  if (axle.forbidden) return { word: STOP, say: sentence(axle.forbidden) };
  return state === "hot" ? judgedHot(axle, value) : judgedCold(axle, value);
}

function judgedCold(axle, value) {
  const { fill, flat, leave, most } = axle;
  if (flat !== undefined && value <= flat) return { word: FLAT, say: ofFlat(axle) };
  if (fill === undefined) return { word: UNKNOWN, say: "No fill on the card: read the label." };
  if (flat === undefined) return { word: UNKNOWN, say: "Flat at: not on the card." };
  if (value < fill) {
    return { word: ADD, say: `${measured(fill - value)}, to ${fill}. Read again after ${together(RIG.again)}.` };
  }
  if (value === fill || (leave !== undefined && value <= leave)) return { word: GO, say: "Leave it." };
  if (leave !== undefined || (most !== undefined && value > most)) {
    return { word: OVER, say: `Let down to ${fill} cold, never warm.` };
  }
  const upTo = most === undefined ? "" : ` Up to ${most} if it is so marked.`;
  const part = axle.unread && axle.unread.length ? `Limit of its ${axle.unread.join(" and ")} not read.` : "";
  return { word: UNKNOWN, say: `Over ${fill}. ${part}${upTo}` };
}

function judgedHot(axle, value) {
  const { fill, hotFlat } = axle;
  if (hotFlat !== undefined && value <= hotFlat) return { word: FLAT, say: ofFlat(axle) };
  if (fill === undefined || hotFlat === undefined) {
    return { word: UNKNOWN, say: "Its hot limits are not on the card. Let out nothing." };
  }
  if (value < fill) {
    return { word: ADD, say: `Low even hot. Rest it ${together(RIG.rest)}, read cold, add to ${fill}.` };
  }
  return { word: GO, say: "Hot: let out nothing." };
}

function ofFlat(axle) {
  return axle.isTruck
    ? "Add no air. Stand clear. Call tire service."
    : "Add no air. Driven on it? Off, and inspected inside.";
}

// Hot tires of one axle that read too far apart: one leaks, or a brake drags.
function judgedMates(axle, readings, state) {
  if (state !== "hot" || readings.length < 2) return null;
  if (axle.apart === undefined) {
    return { word: UNKNOWN, say: "How far apart hot mates may be is not on the card." };
  }
  const sorted = [...readings].sort((one, other) => one.value - other.value);
  const low = sorted[0], high = sorted[sorted.length - 1], apart = round(high.value - low.value);
  if (apart <= axle.apart) return { word: GO, say: `Mates within ${measured(axle.apart)}.` };
  const said = `${low.name} is ${measured(apart)} under ${high.name}, more than ${axle.apart}`;
  return { word: APART, say: `${begun(said)}: one leaks, or a brake drags. Find out which.` };
}

// What the card says of an axle, for tires in this state.
function limitsTold(axle, state) {
  const known = (number) => number ?? "not known";
  if (axle.forbidden) return [sentence(axle.forbidden)];
  if (axle.fill === undefined) return ["No fill on the card"];
  const alarm = axle.alarm === undefined ? [] : [`low alarm ${axle.alarm}`];
  return state === "hot"
    ? [`FLAT ${known(axle.hotFlat)} or less`, `cold fill ${axle.fill}`, `mates within ${known(axle.apart)}`, ...alarm]
    : [`FLAT ${known(axle.flat)} or less`, `fill ${axle.fill}`, axle.leave === undefined ? "highest not known" : `GO up to ${axle.leave}`];
}

// A weight over its rating. One that is not says nothing: it passes no tire, wheel or coupling.
function judgedWeight(weight, rating, less) {
  if (weight === null || rating === null || weight <= rating) return null;
  return { word: HEAVY, say: `${weighed(Math.ceil(weight - rating))} over its rating. Do not drive on: ${less}.` };
}

// Ends that cannot be of their axle, within one step of the scale.
function endsWrong(left, right, axle, step) {
  if (axle === null) return "";
  if (Math.max(left, right) > axle) return "One end alone weighs more. Weigh again, or leave one out.";
  if (left === null || right === null || Math.abs(round(left + right - axle)) <= step) return "";
  return `Left and right make ${weighed(left + right)}. Weigh again, or leave one out.`;
}

// Axles that cannot be of their vehicle, each after the first within one step of the scale; null was not weighed.
function totalWrong(axles, total, step) {
  const read = axles.filter((one) => one !== null), apart = round(summed(read) - total), allowed = step * Math.max(read.length - 1, 1);
  const isApart = read.length === axles.length ? Math.abs(apart) > allowed : apart > allowed;
  return read.length && isApart ? `The axles make ${weighed(summed(read))}. Weigh again, or leave one out.` : "";
}

function summed(numbers) {
  return round(numbers.reduce((sum, one) => sum + one, 0));
}

function weighed(weight) {
  return together(`${round(weight).toLocaleString("en-US")} ${RIG.weighing.each.unit}`);
}

// A number keeps its unit on the same line.
function together(text) {
  return text.replace(/ /g, "\u00a0");
}

function measured(pressure) {
  return together(`${round(pressure)} ${RIG.unit}`);
}

function round(value) {
  return Math.round(value * 100) / 100;
}

function begun(text) {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}

function sentence(text) {
  return `${begun(text.replace(/\.$/, ""))}.`;
}
