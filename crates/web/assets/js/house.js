// Outbox, keys and pedal, a page that stays true: every page is complete without. Pure functions first.
"use strict";

/** The state of writing, as the head of the page says it. */
function writingWords(waiting, online, refused) {
  if (refused) return refused === 1 ? "one entry refused" : refused + " entries refused";
  if (!waiting) return online ? "" : "offline, as last read";
  const count = waiting === 1 ? "1 entry waiting" : waiting + " entries waiting";
  return online ? count : "offline, " + count + ", kept here";
}

/** A moment as RFC 3339 with the offset of this device. */
function stamp(milliseconds) {
  const local = new Date(milliseconds);
  const offset = -local.getTimezoneOffset();
  const two = (number) => String(Math.floor(Math.abs(number))).padStart(2, "0");
  const shifted = new Date(milliseconds + offset * 60000).toISOString().slice(0, 19);
  return shifted + (offset < 0 ? "-" : "+") + two(offset / 60) + ":" + two(offset % 60);
}

/** A UUID of version 7. */
function uuid() {
  const random = [...crypto.getRandomValues(new Uint8Array(18))].map((byte) => (byte & 15).toString(16)).join("");
  const hex = Date.now().toString(16).padStart(12, "0") + "7" + random.slice(0, 3) + "a" + random.slice(3);
  return hex.replace(/(.{8})(.{4})(.{4})(.{4})/, "$1-$2-$3-$4-");
}

/** What a key means: the first foot button, undo, or the key itself. */
function keyName(key) {
  if (key === " " || key === "Enter" || key === "PageDown") return "next";
  if (key === "Backspace" || key === "PageUp") return "undo";
  return key.length === 1 ? key.toLowerCase() : "";
}

/** The clock of the head in the kitchen's zone and manner. */
function clockWords(milliseconds, zone, twelve, withDay) {
  const part = (options) => new Intl.DateTimeFormat("en-GB", { timeZone: zone, ...options }).format(milliseconds);
  let clock = part({ hour: "2-digit", minute: "2-digit", hourCycle: "h23" });
  if (twelve) {
    const [hour, minute] = clock.split(":");
    clock = (hour % 12 || 12) + ":" + minute + "\u202f" + (hour < 12 ? "am" : "pm");
  }
  if (!withDay) return clock;
  return part({ weekday: "short" }) + " " + part({ day: "numeric" }) + " " + part({ month: "short" }) + ", " + clock;
}

// ---- wiring

(() => {
  const find = (selector, root = document) => root.querySelector(selector);
  const all = (selector, root = document) => [...root.querySelectorAll(selector)];
  const skew = () => Number(document.body.dataset.now) - loaded;
  const loaded = Date.now();
  const start = skew();
  const now = () => Date.now() + start;
  let said = find("[data-writing]")?.textContent ?? "";
  let refused = [];
  let touched = false;
  let stale = false;

  // -- outbox: kept on the device until the house has it on disk
  let memory = [];
  const database = new Promise((done) => {
    try {
      const open = indexedDB.open("gambrel", 1);
      open.onupgradeneeded = () => open.result.createObjectStore("outbox", { keyPath: "n", autoIncrement: true });
      open.onsuccess = () => done(open.result);
      open.onerror = () => done(null);
    } catch {
      done(null);
    }
  });
  const ask = async (mode, act) => {
    const base = await database;
    if (!base) return undefined;
    return new Promise((done, fail) => {
      const request = act(base.transaction("outbox", mode).objectStore("outbox"));
      request.onsuccess = () => done(request.result);
      request.onerror = () => fail(request.error);
    });
  };
  const keep = async (item) => {
    const n = await ask("readwrite", (box) => box.add(item)).catch(() => undefined);
    if (n === undefined) memory.push(item);
    return { ...item, n };
  };
  const drop = async (item) => {
    memory = memory.filter((other) => other.body !== item.body);
    if (item.n !== undefined) await ask("readwrite", (box) => box.delete(item.n)).catch(() => {});
  };
  const waiting = async () => [...((await ask("readonly", (box) => box.getAll()).catch(() => [])) ?? []), ...memory];

  const show = async () => {
    const line = find("[data-writing]");
    if (!line) return;
    const words = writingWords((await waiting()).length, navigator.onLine, refused.length);
    line.textContent = words || said;
    if (refused.length) line.append(" · ", button("look at it", () => resend(refused.shift())));
    else if (stale) line.append(" · ", button("something new, show it", () => refresh(true)));
  };
  const button = (words, act) => {
    const made = document.createElement("button");
    made.type = "button";
    made.className = "plain";
    made.textContent = words;
    made.onclick = act;
    return made;
  };

  /** Sends one item; true when the house has answered for it, whatever it said. */
  const send = async (item, mine) => {
    const answer = await fetch(item.url, {
      method: "POST",
      body: new URLSearchParams(item.body),
      headers: { "X-From": "outbox" },
    });
    if (answer.status >= 500) throw new Error("the house is not well");
    await drop(item);
    if (answer.status >= 400) {
      if (mine) swap(await answer.text(), true);
      else refused.push(item);
    } else if (mine) {
      const there = new URL(answer.url);
      if (there.pathname !== location.pathname) return location.assign(answer.url);
      history.replaceState(null, "", answer.url);
      swap(await answer.text(), true);
    }
    return true;
  };
  /** A refused entry is sent once more as a plain form, so that its page stands with what was typed. */
  const resend = (item) => {
    const form = document.createElement("form");
    form.method = "post";
    form.action = item.url;
    for (const [name, value] of new URLSearchParams(item.body)) {
      const field = document.createElement("input");
      [field.type, field.name, field.value] = ["hidden", name, value];
      form.append(field);
    }
    document.body.append(form);
    form.submit();
  };
  let emptying = false;
  const empty = async () => {
    if (emptying) return;
    emptying = true;
    try {
      for (const item of await waiting()) await send(item, false);
    } catch {
      // No network: it stays in the outbox.
    }
    emptying = false;
    show();
  };

  document.addEventListener("submit", async (event) => {
    const form = event.target;
    if (!form.matches("form[data-entry]")) return;
    event.preventDefault();
    const pressed = event.submitter;
    const body = new URLSearchParams(new FormData(form, pressed));
    if (!body.get("at")) body.set("at", stamp(now()));
    const buttons = all("button", form);
    buttons.forEach((other) => (other.disabled = true));
    const item = await keep({ url: form.action, body: body.toString() });
    forget(form);
    touched = false;
    try {
      await send(item, true);
    } catch {
      buttons.forEach((other) => (other.disabled = false));
      // The next one is another entry; at the board the plan's next portion takes the stage.
      form.reset();
      form.elements.id.value = uuid();
      const [ahead, stage] = [find("template[data-ahead]"), form.closest("[data-stage]")];
      if (ahead && stage) stage.replaceChildren(ahead.content);
      ahead?.remove();
      note(stage ?? form, "Kept here until the house answers. Going on is safe.");
    }
    show();
  });
  const note = (form, words) => {
    const line = find(".kept", form) ?? document.createElement("p");
    line.className = "quiet kept";
    line.setAttribute("role", "status");
    line.textContent = words;
    form.append(line);
  };

  // -- drafts: what was typed and not sent outlives the page
  const draftKey = (form) => ["draft", location.pathname, form.elements.form?.value, form.elements.n?.value].join(" ");
  document.addEventListener("input", (event) => {
    const form = event.target.form;
    touched = true;
    if (!form?.matches("[data-entry]")) return;
    const typed = [...new FormData(form)].filter(([name]) => !["id", "form", "at"].includes(name));
    try { localStorage.setItem(draftKey(form), JSON.stringify(typed)) } catch { /* no room */ }
  });
  // Sent, it is in the outbox: kept as a draft too, it would fill the next form of that name.
  const forget = (form) => {
    try { localStorage.removeItem(draftKey(form)) } catch { /* none */ }
  };
  const restore = () => {
    for (const form of all("form[data-entry]")) {
      if (find(".wrong", form)) continue;
      let typed = [];
      try { typed = JSON.parse(localStorage.getItem(draftKey(form)) ?? "[]") } catch { /* not ours */ }
      for (const [name, value] of typed) {
        for (const field of all(`[name="${CSS.escape(name)}"]`, form)) {
          if (field.type === "radio" || field.type === "checkbox") field.checked = field.value === value;
          else if (field.type !== "hidden") field.value = value;
        }
      }
    }
  };

  // -- a page that stays true
  const swap = (text, byHand) => {
    const page = new DOMParser().parseFromString(text, "text/html");
    const open = new Set(all("details[open]").map((one) => one.id));
    for (const part of ["main", ".hands", ".state"]) {
      const [old, fresh] = [find(part), find(part, page)];
      if (old && fresh) old.replaceWith(document.adoptNode(fresh));
    }
    document.title = page.title;
    document.body.dataset.number = page.body.dataset.number;
    all("details").forEach((one) => { if (open.has(one.id)) one.open = true });
    said = find("[data-writing]")?.textContent ?? said;
    [touched, stale] = [false, false];
    const wrong = find("main [aria-invalid], main .wrong");
    if (byHand && wrong) (wrong.focus ? wrong : find("main")).focus();
    else if (byHand && find("main[data-typed-first]")) find("[data-typed]")?.focus();
    else if (!byHand) restore();
    show();
  };
  const refresh = async (byHand) => {
    if (!byHand && (touched || find("main input:focus, main select:focus, main textarea:focus"))) {
      stale = true;
      return show();
    }
    try {
      const answer = await fetch(location.href, { headers: { "X-From": "refresh" } });
      if (answer.ok && answer.url === location.href.split("#")[0]) swap(await answer.text(), false);
    } catch {
      show();
    }
  };
  let soon = 0;
  const listen = () => {
    const stream = new EventSource("/api/changes?after=" + document.body.dataset.number);
    const heard = (event) => {
      if (Number(event.lastEventId) <= Number(document.body.dataset.number)) return;
      clearTimeout(soon);
      soon = setTimeout(refresh, 150);
    };
    stream.onmessage = heard;
    stream.addEventListener("entry", heard);
    stream.onopen = empty;
  };

  const tick = () => {
    const clock = find("[data-clock]");
    const { zone, hours } = document.body.dataset;
    if (clock && zone) clock.textContent = clockWords(now(), zone, hours === "12", clock.hasAttribute("data-day"));
    if (find("main [data-by-the-minute]") && document.visibilityState === "visible") refresh();
  };

  // -- keys and pedal: once per press, never while a field has the focus
  addEventListener("keydown", (event) => {
    const busy = event.target.closest?.("input, select, textarea, button, a, summary, [contenteditable]");
    if (event.repeat || event.ctrlKey || event.metaKey || event.altKey || busy) return;
    const name = keyName(event.key);
    const field = find("[data-typed]");
    // A scale that types: digits go into the field for the weight, Enter sends it.
    if (field && /^\d$/.test(name)) return field.focus();
    const place = /^[1-5]$/.test(name) ? all(".places a")[name - 1] : null;
    const target = find(`[data-key~="${CSS.escape(name || "none")}"]`) ?? place;
    if (!target) return;
    event.preventDefault();
    target.click();
  });

  // Large keys fill the field for the weight.
  addEventListener("click", ({ target }) => {
    const [key, field] = [target.closest("[data-digit]"), find("[data-typed]")];
    if (!key || !field) return;
    field.value = key.dataset.digit && field.value + key.dataset.digit;
    field.dispatchEvent(new Event("input", { bubbles: true }));
  });

  addEventListener("online", empty);
  addEventListener("offline", show);
  addEventListener("pageshow", (event) => { if (event.persisted) refresh() });
  restore();
  listen();
  empty();
  setTimeout(() => { tick(); setInterval(tick, 60000) }, 60000 - (now() % 60000));
})();
