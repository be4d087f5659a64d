// The driven carburettor in a notebook: questions go to the kernel, which answers them in order.

import { mountDrive } from "./drive.js";

const KERNEL_WAIT = 15000; // milliseconds after which a kernel counts as busy or away

function askingKernel(model) {
  const waiting = new Map();
  let number = 0;
  model.on("msg:custom", ({ number: answered, answer, error }) => {
    const asked = waiting.get(answered);
    if (!asked) return;
    waiting.delete(answered);
    clearTimeout(asked.timer);
    if (error) asked.refuse(new Error(error));
    else asked.take(answer);
  });
  return (question) =>
    new Promise((take, refuse) => {
      number += 1;
      const mine = number;
      const late = () => waiting.delete(mine) && refuse(new Error("The kernel does not answer; it is busy or away. Run the cell again."));
      waiting.set(mine, { take, refuse, timer: setTimeout(late, KERNEL_WAIT) });
      model.send({ number: mine, question });
    });
}

function render({ model, el }) {
  const open = ({ line, notes }, say) => say(`${notes.join(" ")} In a cell of its own: ${line}`);
  const drive = mountDrive({
    el,
    about: model.get("about"),
    first: model.get("first"),
    ask: askingKernel(model),
    said: {},
    system: "SI",
    tools: [],
    told: () => {},
    open,
  });
  return drive.stop;
}

export default { render };
