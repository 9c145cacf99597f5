// A page opened from disk may not start a worker from a file. Here the theme's own search worker, which the build has
// put into window.searchWorker, is started from memory instead. On a server nothing changes.
"use strict";
(() => {
  if (location.protocol !== "file:") return;

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
    let timer;
    worker.addEventListener("error", () => tell(true));
    worker.addEventListener("message", () => {
      clearTimeout(timer);
      tell(false);
    });
    const post = worker.postMessage.bind(worker);
    worker.postMessage = (...message) => {
      timer = timer || setTimeout(tell, PATIENCE, true);
      post(...message);
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
