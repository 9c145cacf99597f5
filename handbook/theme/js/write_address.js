// Writes an address without going there. A browser that has been asked too often refuses that for a while: then the
// page goes there.
"use strict";
/** @type {(address: string, way?: "replaceState" | "pushState") => void} in the place of the one before, or after it */
sharing.writeAddress = (address, way = "replaceState") => {
  try {
    history[way](null, "", address);
  } catch {
    location.hash = address;
  }
};
