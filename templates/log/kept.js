"use strict";
// Entries and settings in the phone, by the rig's name; where the browser keeps nothing, until it is closed.

const kept = { isLasting: true, entries: [], handed: new Set(), settings: new Map() };
let base = null;

function asked(request) {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

function done(change) {
  return new Promise((resolve, reject) => {
    change.oncomplete = resolve;
    change.onerror = change.onabort = () => reject(change.error);
  });
}

async function openKept() {
  try {
    const request = indexedDB.open(`rig log ${RIG.rig}`, 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore("entries", { keyPath: "id" });
      request.result.createObjectStore("handed");
      request.result.createObjectStore("settings");
    };
    base = await asked(request);
  } catch {
    kept.isLasting = false;
  }
  await readKept();
}

// Read again what another window of this page may have kept meanwhile.
async function readKept() {
  if (!base) return;
  const change = base.transaction(["entries", "handed", "settings"]);
  const settings = change.objectStore("settings");
  const found = await Promise.all([
    asked(change.objectStore("entries").getAll()),
    asked(change.objectStore("handed").getAllKeys()),
    asked(settings.getAllKeys()),
    asked(settings.getAll()),
  ]);
  kept.entries = found[0].map((one) => one.entry);
  kept.handed = new Set(found[1]);
  kept.settings = new Map(found[2].map((key, place) => [key, found[3][place]]));
  kept.entries.forEach((one) => seenId(one.id));
}

async function keep(entries) {
  if (base) {
    const change = base.transaction("entries", "readwrite");
    entries.forEach((entry) => change.objectStore("entries").add({ id: entry.id, entry }));
    await done(change);
  }
  kept.entries.push(...entries);
}

async function markHanded(ids, at) {
  if (base) {
    const change = base.transaction("handed", "readwrite");
    ids.forEach((id) => change.objectStore("handed").put(at, id));
    await done(change);
  }
  ids.forEach((id) => kept.handed.add(id));
}

async function set(name, value) {
  kept.settings.set(name, value);
  if (!base) return;
  const change = base.transaction("settings", "readwrite");
  change.objectStore("settings").put(value, name);
  await done(change);
}
