// The page works without this script. With it a save keeps the place on the
// page, a chosen fact shows its words and plays from their moment, and nothing
// typed is lost when the program has ended.
(() => {
  "use strict";
  const heard = document.getElementById("heard");
  const page = () => document.getElementById("page");
  let busy = false;

  const say = (text) => { heard.textContent = ""; setTimeout(() => { heard.textContent = text; }, 50); };

  // choose marks what belongs together and plays from its moment.
  const choose = (link) => {
    for (const e of page().querySelectorAll(".chosen")) e.classList.remove("chosen");
    const from = Number(link.dataset.from), to = Number(link.dataset.to);
    if (!("lost" in link.dataset)) {
      for (const w of page().querySelectorAll(".talk [data-from]")) {
        if (Number(w.dataset.from) < to && Number(w.dataset.to) > from) w.classList.add("chosen");
      }
    }
    const line = link.classList.contains("word") ? document.getElementById(link.hash.slice(1)) : link.closest("li, .makes");
    if (line) line.classList.add("chosen");
    const player = document.getElementById("recording");
    if (player && link.dataset.at) {
      player.currentTime = Number(link.dataset.at);
      const started = player.play();
      if (started) started.catch(() => {});
    }
  };

  // swap puts a new reading of the page in place of the old one, keeping what
  // was typed since it was asked for.
  const swap = (text, sent) => {
    const fresh = new DOMParser().parseFromString(text, "text/html");
    const next = fresh.getElementById("page");
    if (!next) return false;
    const typed = new Map();
    for (const li of page().querySelectorAll(".questions > li")) {
      const key = li.querySelector("input[type=hidden]").value, field = li.querySelector("input[type=text]");
      if (field.value !== (sent.get(field.name) ?? "")) typed.set(key, field.value);
    }
    for (const li of next.querySelectorAll(".questions > li")) {
      const key = li.querySelector("input[type=hidden]").value;
      if (typed.has(key)) li.querySelector("input[type=text]").value = typed.get(key);
    }
    const talk = page().querySelector(".talk"), at = talk ? talk.scrollTop : 0;
    page().replaceWith(next);
    const talkNow = next.querySelector(".talk");
    if (talkNow) talkNow.scrollTop = at;
    document.title = fresh.title;
    const told = next.querySelector("#alert, #note");
    const left = next.querySelector("#asks-h").textContent;
    if (told) say(told.textContent + " " + left + ".");
    const alert = next.querySelector("#alert");
    const first = next.querySelector("[aria-invalid]") || (alert ? alert : next.querySelector("[data-first]") || next.querySelector("#note"));
    if (first) first.focus();
    return true;
  };

  const send = async (form, button) => {
    if (busy) return;
    busy = true;
    const data = new URLSearchParams(new FormData(form, button));
    try {
      const answer = await fetch(form.action, { method: "POST", body: data, credentials: "same-origin" });
      if (!swap(await answer.text(), data)) throw new Error("no page");
    } catch {
      let told = document.getElementById("alert");
      if (!told) {
        told = document.createElement("p");
        told.id = "alert";
        told.className = "alert";
        told.tabIndex = -1;
        document.getElementById("asks-h").after(told);
      }
      told.textContent = "Not saved: quern has ended or gives no answer. What you typed is still here. Start quern review again and copy it over.";
      say(told.textContent);
      told.focus();
    } finally {
      busy = false;
    }
  };

  document.addEventListener("submit", (event) => {
    event.preventDefault();
    send(event.target, event.submitter || undefined);
  });
  document.addEventListener("click", (event) => {
    const link = event.target.closest("a[data-from]");
    if (link) choose(link);
  });
  // Undo by the usual keys, but not while they undo typing in a field.
  document.addEventListener("keydown", (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.shiftKey || event.altKey || event.key.toLowerCase() !== "z") return;
    const field = document.activeElement;
    if (field && field.matches("input[type=text]") && field.value !== "") return;
    const undo = document.getElementById("undo");
    if (undo) {
      event.preventDefault();
      send(undo);
    }
  });
})();
