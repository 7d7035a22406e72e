"use strict";
// The history of a card drawn from the entries in the phone: pressures over time by axle, fills, meters.

const HIGH = 132, LEFT = 40, RIGHT = 72, TOP = 12, BOTTOM = 24;
const MONTHS = "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec".split(" ");
const DASHES = ["", "7 4", "2 4", "9 3 2 3"];

// A time as its entry wrote it, in the zone it was read in.
function day(at) {
  return `${MONTHS[Number(at.slice(5, 7)) - 1]} ${Number(at.slice(8, 10))}`;
}

function clock(at) {
  const year = at.slice(0, 4);
  return `${day(at)}${year === String(new Date().getFullYear()) ? "" : ` ${year}`}, ${at.slice(11, 16)}`;
}

function numberOf(text) {
  return Number(/^-?[\d.]+/.exec(text || "")?.[0]);
}

function svg(tag, attributes, ...children) {
  const node = document.createElementNS("http://www.w3.org/2000/svg", tag);
  for (const [name, value] of Object.entries(attributes)) node.setAttribute(name, value);
  node.append(...children);
  return node;
}

// Points of one line: `at`, `value`, and whether they stand for less than a full reading.
function pressuresOf(entries, axle, tire) {
  const own = entries.filter((one) => axleOf(one.vehicle, one.position) === axle && one.position === tire);
  return own.flatMap((one) => {
    const read = one.kind === "tire" ? [one.pressure] : one.kind === "air" ? [one.before, one.after] : [];
    return read.filter((text) => text && text.endsWith(` ${RIG.unit}`))
      .map((text) => ({ at: one.at, value: numberOf(text), isOpen: one.state !== "cold" }));
  });
}

function charts(form, entries, width) {
  if (["tires", "air"].includes(form)) {
    return RIG.axles.map((axle) => {
      const lines = axle.tires.map((tire) => ({ name: tire, points: pressuresOf(entries, axle, tire) }));
      const marks = [["flat", axle.flat], ["fill", axle.fill], ["leave", axle.leave]].filter((one) => one[1] !== undefined);
      return chart(begun(axle.name), RIG.unit, lines, width, marks);
    }).filter(Boolean);
  }
  if (form === "fill") {
    return RIG.tanks.map((tank) => {
      const own = entries.filter((one) => one.kind === "fill" && one.tank === tank.tank && one.vehicle === tank.vehicle);
      const points = own.map((one) => ({ at: one.at, value: numberOf(one.amount), isOpen: one.full !== "true" }));
      return chart(begun(tank.tank), RIG.measures.fill.amount.unit, [{ name: tank.tank, points }], width, [["none", 0]], true);
    }).filter(Boolean);
  }
  if (form === "meter") {
    return RIG.vehicles.flatMap((vehicle) => Object.keys(RIG.meters[vehicle]).map((meter) => {
      const own = entries.filter((one) => one.vehicle === vehicle && one[meter]);
      const points = own.map((one) => ({ at: one.at, value: numberOf(one[meter]), isOpen: false }));
      return chart(begun(`${vehicle}, ${meter}`), RIG.measures.meter[meter].unit, [{ name: meter, points }], width, []);
    })).filter(Boolean);
  }
  return [];
}

function chart(title, unit, lines, width, marks, areBars = false) {
  const drawn = lines.filter((one) => one.points.length);
  const points = drawn.flatMap((one) => one.points);
  if (!points.length) return null;
  const values = [...points.map((one) => one.value), ...marks.map((one) => one[1])];
  const times = points.map((one) => Date.parse(one.at));
  const least = Math.min(...values), most = Math.max(...values), room = (most - least) * 0.06 || 1;
  const first = Math.min(...times), last = Math.max(...times);
  const y = (value) => TOP + (HIGH - TOP - BOTTOM) * (1 - (value - least + room) / (most - least + 2 * room));
  const x = (at) => LEFT + (width - LEFT - RIGHT) * (last > first ? (Date.parse(at) - first) / (last - first) : 0.5);
  const latest = points.reduce((one, other) => (Date.parse(other.at) >= Date.parse(one.at) ? other : one));
  const said = `${title}: ${points.length} ${points.length === 1 ? "reading" : "readings"}, `
    + `${round(Math.min(...points.map((one) => one.value)))} to ${round(Math.max(...points.map((one) => one.value)))} ${unit}; `
    + `the last ${latest.value} on ${clock(latest.at)}`;
  const frame = svg("svg", { class: "chart", role: "img", "aria-label": said, width, height: HIGH, viewBox: `0 0 ${width} ${HIGH}` });
  frame.append(...background(marks, y, width), ...drawn.flatMap((one, at) => lineDrawn(one, at, x, y, areBars, y(least - room / 2))));
  frame.append(...names(drawn, x, y, lines.length > 1));
  const ends = first === last ? [[x(latest.at), "middle", latest.at]] : [[LEFT, "start", stampOf(points, first)], [width - RIGHT, "end", stampOf(points, last)]];
  frame.append(...ends.map(([place, anchor, at]) => svg("text", { x: place, y: HIGH - 6, "text-anchor": anchor }, day(at))));
  return el("figure", {}, el("figcaption", {}, `${title}, ${unit}`), frame);
}

function stampOf(points, time) {
  return points.find((one) => Date.parse(one.at) === time).at;
}

// What is to be read off: where a tire is flat, its fill, and up to where it is left.
function background(marks, y, width) {
  const known = Object.fromEntries(marks), nodes = [];
  if (known.fill !== undefined && known.leave !== undefined && known.leave > known.fill) {
    nodes.push(svg("rect", { class: "good", x: LEFT, y: y(known.leave), width: width - LEFT - RIGHT, height: y(known.fill) - y(known.leave) }));
  }
  for (const [name, value] of marks) {
    nodes.push(svg("line", { class: `mark ${name}`, x1: LEFT, x2: width - RIGHT, y1: y(value), y2: y(value) }));
    nodes.push(svg("text", { x: LEFT - 5, y: y(value) + 4, "text-anchor": "end" }, String(value)));
  }
  return nodes;
}

function lineDrawn(line, at, x, y, areBars, floor) {
  const places = line.points.map((one) => [x(one.at), y(one.value), one.isOpen]);
  if (areBars) {
    return places.map(([left, top, isOpen]) => svg("rect", { class: isOpen ? "bar open" : "bar", x: left - 5, y: top, width: 10, height: Math.max(1, floor - top) }));
  }
  const way = svg("polyline", { class: "way", points: places.map((one) => one.slice(0, 2).map((n) => n.toFixed(1)).join(",")).join(" "), "stroke-dasharray": DASHES[at % DASHES.length] });
  return [way, ...places.map(([left, top, isOpen]) => svg("circle", { class: isOpen ? "dot open" : "dot", cx: left, cy: top, r: 4 }))];
}

// Each line's name at its end, moved apart where two would stand on one another.
function names(lines, x, y, areNamed) {
  const told = lines.map((line) => {
    const last = line.points[line.points.length - 1];
    const short = areNamed ? line.name.split(" ").slice(-2).map((word) => word[0].toUpperCase()).join("") : "";
    const side = areNamed && line.name.split(" ").length === 2 ? line.name.split(" ")[1][0].toUpperCase() : short;
    return { text: `${side} ${last.value}`.trim(), left: x(last.at) + 8, top: y(last.value) + 4 };
  }).sort((one, other) => one.top - other.top);
  for (let at = 1; at < told.length; at += 1) told[at].top = Math.max(told[at].top, told[at - 1].top + 14);
  return told.map((one) => svg("text", { class: "name", x: one.left, y: one.top }, one.text));
}
