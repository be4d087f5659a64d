// Asking Python, which runs in a worker of its own: what is asked before it has come waits for it.
// While nobody waits for an answer, and somebody looks, it works out what is likely to be asked
// next; a few of these as soon as it is there, since the first answers of a Python that has just
// started take several times as long as those after.

const NEEDED = [
  ["WebAssembly", "WebAssembly"],
  ["Worker", "workers"],
  ["DecompressionStream", "unpacking"],
];

// What the browser lacks, in a word; nothing if it lacks nothing.
export const lacking = () => NEEDED.find(([name]) => !(name in globalThis))?.[1];

// `home` is the address of the worker, with the release behind it, which names it too; it is told
// `first` before all.
export function openDesk(home, release, changed, first) {
  const waiting = new Map();
  const status = { came: 0, ready: false, failed: "" };
  let worker, likely, number = 0;
  const idle = () => status.ready && !waiting.size && !document.hidden;

  function fail(why) {
    status.failed = why;
    for (const { refuse } of waiting.values()) refuse(new Error(why));
    waiting.clear();
    changed(status);
  }

  function hear({ data }) {
    if (data.came) status.came += data.came;
    if (data.ready) begin();
    if (data.failed) return fail(data.failed);
    if (!data.number) return changed(status);
    const { take, refuse } = waiting.get(data.number);
    waiting.delete(data.number);
    if (data.error) refuse(new Error(data.error));
    else take(JSON.parse(data.answer));
  }

  function begin() {
    status.ready = true;
    if (likely) prepare(likely);
  }

  function start() {
    if (worker) return;
    worker = new Worker(home, { type: "module", name: release });
    worker.onmessage = hear;
    worker.onerror = (event) => fail(event.message || "the worker did not start");
    for (const question of first) send(question).catch(() => {});
  }

  function prepare(question) {
    if (idle()) worker.postMessage({ onward: JSON.stringify(question) });
  }

  function send(question) {
    number += 1;
    worker.postMessage({ number, question: JSON.stringify(question) });
    return new Promise((take, refuse) => waiting.set(number, { take, refuse }));
  }

  return {
    status,
    start,
    fail,
    prepare: (question) => (status.ready ? prepare(question) : (likely ??= question)),
    ask(question) {
      if (status.failed) return Promise.reject(new Error(status.failed));
      start();
      return send(question);
    },
  };
}
