// In a browser that may store nothing, reading localStorage is an error, at which the theme's own script and with it
// the search would stop. Storage that lasts as long as the page takes its place.
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
