// A page opened from disk may not start a worker from a file. Here the theme's own search worker, which the build has
// put into window.searchWorker, is started from memory instead, and takes in the index as soon as the theme has loaded
// it, as on a server: the theme itself would wait until the field is opened. On a server nothing changes.
"use strict";
(() => {
  if (location.protocol !== "file:") return;

  const SETUP = 0; // the theme's number for an index
  const INDEX = "/search/search_index.js";
  const PATIENCE = 10000; // milliseconds until the reader is told where else to look
  const source = window.searchWorker;
  const NativeWorker = window.Worker;

  const tell = (broken) => {
    const help = document.getElementById("search-help");
    if (help) help.hidden = !broken;
  };

  const start = () => {
    const address = URL.createObjectURL(new Blob([source], { type: "text/javascript" }));
    const worker = new NativeWorker(address);
    const post = worker.postMessage.bind(worker);
    let isReady = false;
    let timer;
    worker.addEventListener("error", () => tell(true));
    worker.addEventListener("message", () => {
      isReady = true;
      clearTimeout(timer);
      tell(false);
    });
    const giveIndex = ({ target }) => {
      if (target.src?.endsWith(INDEX)) post({ type: SETUP, data: { ...window.__index, options: {} } });
    };
    document.addEventListener("load", giveIndex, { capture: true });
    worker.postMessage = (message) => {
      if (!isReady) timer ??= setTimeout(tell, PATIENCE, true);
      if (message.type !== SETUP) post(message);
    };
    return worker;
  };

  // Called as `new Worker(address)` by the theme; the address of the file is of no use here.
  window.Worker = function OfflineWorker() {
    try {
      if (!source) throw new Error("the search worker is missing");
      return start();
    } catch {
      tell(true);
      return Object.assign(new EventTarget(), { postMessage() {}, terminate() {} });
    }
  };
})();
