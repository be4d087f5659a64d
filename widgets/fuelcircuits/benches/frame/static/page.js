// The page of a bench: it draws what the table says that stands in this file.

import { render } from "./bench.js";
import { unpack } from "./blend.js";
import { pageModel } from "./model.js";

const read = (id) => document.getElementById(id).textContent;
unpack(read("table")).then((table) => render({ model: pageModel(JSON.parse(read("about")), table), el: document.getElementById("bench") }));
