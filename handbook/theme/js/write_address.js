// Writes an address without going there. A browser refuses that for a while after very many: then it is gone to.
"use strict";
/** @type {(address: string, way?: "replaceState" | "pushState") => void} in the place of the one before, or after it */
sharing.writeAddress = (address, way = "replaceState") => {
  try {
    history[way](null, "", address);
  } catch {
    location.hash = address;
  }
};
