// Keys and saving for the page on which one question is marked by hand.
"use strict";

const page = document.querySelector("main");
const articles = [...document.querySelectorAll("article")];
const outOf = page.dataset.outOf;
const unsaved = new Set();

const ticksOf = (article) => [...article.querySelectorAll("input[type=checkbox]")];
const say = (article, words, ill = false) => {
  const output = article.querySelector("output");
  output.textContent = words;
  output.classList.toggle("ill", ill);
};

function pointsOf(article) {
  const ticked = ticksOf(article).filter((box) => box.checked);
  const sum = ticked.reduce((points, box) => points + Number(box.dataset.points), 0);
  return Math.min(sum, Number(outOf));
}

function showProgress() {
  const waiting = articles.filter((article) => article.classList.contains("waits")).length;
  const marked = articles.length - waiting;
  document.getElementById("progress").textContent = `${marked} of ${articles.length} marked`;
}

function changed(article) {
  unsaved.add(article);
  say(article, `${pointsOf(article)} of ${outOf}, not saved`);
}

function current() {
  return document.activeElement?.closest("article");
}

function goTo(article) {
  article.focus({ preventScroll: true });
  article.scrollIntoView({ block: "start" });
}

function move(step) {
  const here = articles.indexOf(current());
  const there = here < 0 ? 0 : here + step;
  if (articles[there]) goTo(articles[there]);
}

function nextWaiting(article) {
  const after = articles.slice(articles.indexOf(article) + 1);
  return after.find((one) => one.classList.contains("waits")) ?? after[0];
}

async function save(article) {
  const mark = {
    trainee: article.dataset.trainee,
    digest: article.dataset.digest,
    ticks: ticksOf(article).map((box) => box.checked),
    comment: article.querySelector("textarea").value,
  };
  const next = nextWaiting(article);
  say(article, "saving …");
  try {
    const answer = await fetch(`/${page.dataset.question}`, {
      method: "POST",
      headers: { "Content-Type": "application/json" },
      body: JSON.stringify(mark),
    });
    const told = await answer.json();
    if (!answer.ok) throw new Error(told.error);
    unsaved.delete(article);
    article.classList.remove("waits");
    article.querySelector(".state").textContent = `${told.points} of ${outOf}`;
    say(article, "saved");
    showProgress();
    if (next && current() === article) goTo(next);
  } catch (error) {
    say(article, `Not saved: ${error.message}`, true);
  }
}

function onKey(event) {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const article = current();
  if (event.target.tagName === "TEXTAREA") {
    if (event.key === "Escape") article.focus();
    return;
  }
  const box = article && /^[1-9]$/.test(event.key) && ticksOf(article)[event.key - 1];
  if (["j", "ArrowDown"].includes(event.key)) move(1);
  else if (["k", "ArrowUp"].includes(event.key)) move(-1);
  else if (box) box.click();
  else if (article && event.key === "c") article.querySelector("textarea").focus();
  else if (article && event.key === "Enter" && event.target.tagName !== "BUTTON") save(article);
  else return;
  event.preventDefault();
}

for (const article of articles) {
  article.querySelector("form").addEventListener("submit", (event) => {
    event.preventDefault();
    save(article);
  });
  article.addEventListener("input", () => changed(article));
}
document.addEventListener("keydown", onKey);
window.addEventListener("beforeunload", (event) => {
  if (unsaved.size) event.preventDefault();
});
showProgress();
goToFirst();

function goToFirst() {
  const first = articles.find((article) => article.classList.contains("waits")) ?? articles[0];
  if (first && first !== articles[0]) goTo(first);
  else first?.focus({ preventScroll: true });
}
