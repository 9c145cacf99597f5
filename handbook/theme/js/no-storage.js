// Where a browser may keep nothing, asking what it has kept is an error, at which the theme's own script and with it
// the search would stop. Here a memory that lasts as long as the page takes its place. Without this script search does
// not start in such a browser.
"use strict";
(() => {
  try {
    localStorage.getItem("");
  } catch {
    const kept = new Map();
    const memory = {
      getItem: (name) => kept.get(name) ?? null,
      setItem: (name, value) => kept.set(name, value),
      removeItem: (name) => kept.delete(name),
    };
    for (const name of ["localStorage", "sessionStorage"]) Object.defineProperty(window, name, { value: memory });
  }
})();
