// The bench page: counts on between answers, keeps what was pressed until it is stored, sounds at
// marks. Nothing here is needed to press and to read: without it every button is a form.
"use strict";
(() => {
  const at = (id) => document.getElementById(id);
  const main = at("bench");
  const POLL = 5000, AGAIN = 2000, PATIENCE = 8000, BOUNCE = 700, RING_AGAIN = 15000;
  const LETTERS = "0123456789abcdefghjkmnpqrstvwxyz";
  const load = letters(6);
  let naps = 0; // how often the page was put away: steady clocks of browsers may stand still then
  let desk = { state: JSON.parse(main.dataset.state), since: clock() }; // as it told last
  let { state, since } = desk; // as it is shown: what is kept but not stored yet is in it too
  let sending = false;
  let turn = 0; // of presses kept and stored: an answer that was asked for before is out of date

  function letters(count) {
    const bytes = crypto.getRandomValues(new Uint8Array(count));
    return Array.from(bytes, (one) => LETTERS[one & 31]).join("");
  }

  function clock() {
    return { wall: Date.now(), steady: performance.now(), load, naps };
  }

  // Milliseconds since a moment of this page. The steady clock, unless the page was put away or
  // loaded anew meanwhile: then whichever says more, for a set-back clock says too little.
  function passed(then) {
    const wall = Date.now() - then.wall;
    const steady = performance.now() - then.steady;
    if (then.load !== load) return Math.max(0, wall);
    return then.naps === naps ? Math.max(0, steady) : Math.max(0, steady, wall);
  }

  const onTime = () => state.on_time + (state.counting ? passed(since) / 1000 : 0);

  // --- what is kept until the desk has it: one item for each press, so that two pages of one
  // browser can't write over each other
  const PREFIX = "ozonewright ";
  const memory = new Map();
  const store = {
    keys() {
      let kept = [];
      try { kept = Object.keys(localStorage); } catch { /* it is in memory */ }
      return [...kept, ...memory.keys()].filter((key) => key.startsWith(PREFIX)).sort();
    },
    get(key) {
      if (memory.has(key)) return memory.get(key);
      try { return JSON.parse(localStorage.getItem(key)); } catch { return null; }
    },
    put(key, value) {
      try { localStorage.setItem(key, JSON.stringify(value)); } catch { memory.set(key, value); }
    },
    drop(key) {
      memory.delete(key);
      try { localStorage.removeItem(key); } catch { /* it was in memory */ }
    },
  };

  function keep(path, fields, word = "") {
    const last = store.keys().pop();
    const number = Math.max(Date.now(), last ? Number(last.slice(PREFIX.length).split(" ")[0]) + 1 : 0);
    store.put(`${PREFIX}${number} ${letters(4)}`, { path, fields, word, ...clock() });
    turn += 1;
    ahead();
    show();
    flush();
  }

  // The presses that the desk's state does not hold yet. They are sent in order, so that those
  // before its last are in it though their answer was lost.
  function waiting() {
    const kept = store.keys().map(store.get).filter((one) => one && one.fields.of === desk.state.of);
    const undone = new Set(kept.filter((one) => one.path === "/bench/undo").map((one) => one.fields.id));
    const held = kept.findIndex((one) => one.fields.id === desk.state.last.id && !undone.has(one.fields.id));
    return kept.slice(held + 1).filter((one) => one.fields.what in ACTS && !undone.has(one.fields.id));
  }

  function ahead() {
    ({ state, since } = desk);
    if (store.keys().some((key) => store.get(key)?.path === "/bench/undo")) state = { ...state, last: { id: "", text: "…" } };
    for (const one of waiting()) act(one);
  }

  // A press with all that follows from it since it was made.
  function act(one) {
    const run = onTime(), made = amount(), counted = state.counting;
    state = { ...state, ...ACTS[one.fields.what] };
    state.counting = state.gas && state.discharge && !state.diverted;
    const more = (Number(state.counting) - Number(counted)) * (passed(one) / 1000);
    state.on_time = Math.max(0, run + more);
    state.amount = grown(made, more);
    since = clock();
    state.next_runs = state.counting && state.marks.some((mark) => mark.at > state.on_time) ? "on-time" : "";
    state.next_text = "…";
    const when = new Date(one.wall).toTimeString().slice(0, 8);
    state.last = { id: one.fields.id, text: `${one.word}, ${when}` };
  }

  async function ask(path, fields) {
    const stop = new AbortController();
    const timer = setTimeout(() => stop.abort(), PATIENCE);
    try {
      return await fetch(path, {
        method: fields ? "POST" : "GET",
        body: fields && new URLSearchParams(fields),
        headers: { accept: "application/json" },
        redirect: "error",
        signal: stop.signal,
      });
    } finally { clearTimeout(timer); }
  }

  async function json(reply) {
    const kind = reply.headers.get("content-type") || "";
    return kind.startsWith("application/json") ? reply.json() : null;
  }

  // Sends what is kept, the first press first. Only an answer of the desk's own takes it off the
  // list; whatever else happens, it is sent again, and the desk keeps it once.
  async function flush() {
    if (sending) return;
    sending = true;
    try {
      for (const key of store.keys()) {
        const one = store.get(key);
        if (one && !(await sent(key, one))) break;
      }
      alone(false);
    } catch { alone(true); } finally { sending = false; }
    show();
    if (store.keys().length) setTimeout(flush, AGAIN);
  }

  async function sent(key, one) {
    const wait = one.path === "/bench/press" ? { ago: (passed(one) / 1000).toFixed(3) } : {};
    const fields = { ...one.fields, ...wait, token: state.token };
    let reply = await ask(one.path, fields);
    if (reply.status === 403 && (await look())) {
      reply = await ask(one.path, { ...fields, token: state.token });
    }
    if (reply.status !== 200 && reply.status !== 422) return false;
    const said = await json(reply);
    if (!said) return false;
    store.drop(key);
    turn += 1;
    if (reply.status === 200) take(said);
    else { refuse(said); await look(); }
    return true;
  }

  function refuse(said) {
    const told = [said.what, said.got && `(${said.got})`, said.fix].filter(Boolean).join(" ");
    at("refused").querySelector("span").textContent = told;
    at("refused").hidden = false;
  }

  async function look() {
    const asked = turn;
    const reply = await ask(`/bench/state?of=${encodeURIComponent(state.of)}`);
    at("shut").hidden = reply.status !== 403;
    if (reply.status !== 200) return false;
    const said = await json(reply);
    if (!said) return false;
    if (asked === turn) take(said);
    else renew(said.token);
    return true;
  }

  function take(said) {
    if (said.of !== state.of) { renew(said.token); return; }
    desk = { state: said, since: clock() };
    ahead();
    at("shut").hidden = true;
    show();
  }

  function renew(token) { desk.state.token = state.token = token; }

  async function poll() {
    if (!document.hidden) {
      try { alone(!(await look())); } catch { alone(true); }
      if (store.keys().length) flush();
    }
    setTimeout(poll, POLL);
  }

  function alone(is) { at("alone").hidden = !is || !at("shut").hidden; }

  // --- presses
  const ACTS = {
    "gas on": { gas: true }, "gas off": { gas: false },
    "discharge on": { discharge: true, stopped: false }, "discharge off": { discharge: false },
    divert: { diverted: true }, "into bottle": { diverted: false },
    stop: { discharge: false, stopped: true },
  };
  let lastTap = ["", 0];

  function press(event) {
    event.preventDefault();
    const button = event.submitter || event.target.querySelector("button");
    const now = performance.now();
    if (lastTap[0] === button.id && now - lastTap[1] < BOUNCE) return; // a glove taps twice
    lastTap = [button.id, now];
    const what = button.value, name = event.target.dataset.name;
    const word = what === "stop" ? name : `${name} ${button.getAttribute("aria-pressed") === "false" ? "on" : "off"}`;
    sound.wake();
    if (navigator.vibrate) navigator.vibrate(40);
    keep("/bench/press", { id: letters(12), what, of: state.of }, word);
  }

  function undo(event) {
    event.preventDefault();
    keep("/bench/undo", { id: state.last.id, of: state.of });
  }

  // --- titres
  function step(event) {
    event.preventDefault();
    const by = Number(event.submitter.value.replace("\u2212", "-"));
    const value = Number(at("burette").value.replace(",", ".")) || 0;
    at("burette").value = Math.max(0, Math.round((value + by) * 100) / 100).toFixed(2);
  }

  function keepTitre(event) {
    event.preventDefault();
    const value = at("burette").value.trim();
    keep("/bench/press", { id: letters(12), what: at("bottle").value, of: state.of, value });
  }

  // --- what is shown
  const two = (number) => String(number).padStart(2, "0");
  function digits(seconds) {
    const whole = Math.floor(Math.max(0, seconds) + 1e-6);
    const hours = Math.floor(whole / 3600), minutes = Math.floor(whole / 60) % 60;
    return hours ? `${hours}:${two(minutes)}:${two(whole % 60)}` : `${two(minutes)}:${two(whole % 60)}`;
  }
  function words(seconds) {
    const whole = Math.max(0, Math.round(seconds));
    const parts = [[Math.floor(whole / 3600), "h"], [Math.floor(whole / 60) % 60, "min"], [whole % 60, "s"]];
    return parts.filter(([count]) => count).map(([count, unit]) => `${count} ${unit}`).join(" ") || "0 s";
  }

  function amount() {
    return state.counting ? grown(state.amount, onTime() - state.on_time) : state.amount;
  }

  function grown(one, seconds) {
    if (!one.text) return one;
    const value = Math.max(0, one.value + (one.pace * seconds) / 60);
    const u = Math.max(0, one.u + (one.u_pace * seconds) / 60);
    return { ...one, value, u, text: `${value.toFixed(one.decimals)} ± ${u.toFixed(one.decimals)}` };
  }

  function put(id, text) {
    const one = at(id);
    if (one && one.textContent !== text) one.textContent = text;
  }

  function tick() {
    const run = onTime(), shown = digits(run);
    put("digits", shown);
    at("digits").classList.toggle("long", shown.length > 5);
    const past = state.counting && state.marks.length > 0 && state.marks.every((one) => one.at <= run);
    main.classList.toggle("past", past);
    document.title = `${shown} · ${state.of}`;
    put("amount", amount().text);
    const reach = Math.max(state.reach, 1.15 * run) || 1;
    at("run").setAttribute("width", Math.min(1000, (1000 * run) / reach).toFixed(1));
    coming(run);
    ring(run);
  }

  function coming(run) {
    const gone = passed(since) / 1000;
    if (state.next_runs === "gas") {
      const left = state.next_left - gone;
      put("next", left > 0 ? `${state.next_name}, in ${words(left)}` : "gas may go off");
    } else if (state.next_runs === "on-time" && state.counting) {
      const mark = state.marks.find((one) => one.at > run);
      put("next", mark ? `${mark.name}, in ${words(mark.at - run)}` : "stop now");
    } else put("next", state.next_text);
  }

  function show() {
    const kept = store.keys().length;
    at("unstored").hidden = !kept;
    put("waiting", String(kept));
    at("stored").hidden = Boolean(kept) || !state.stored;
    put("stored-at", state.stored);
    button("gas", state.gas, "gas off", "gas on");
    button("discharge", state.discharge, "discharge off", "discharge on");
    button("divert", state.diverted, "into bottle", "divert");
    put("plan", state.plan);
    put("amount-of", state.amount.after);
    put("marks", state.marks_text);
    put("last", state.last.text || "none yet");
    at("undo").hidden = !state.last.id;
    at("gate").className = state.gate_word || "unasked";
    put("gate", `${state.gate_mark} ${state.gate}`);
    bar();
    list("notes", state.notes.map((note) => [note.level, `${note.mark} ${note.word}`, note.text]));
    at("signs-of-the-end").hidden = !state.signs.length;
    list("signs", state.signs.map((line) => ["", line]));
    list("titres", state.titres.map((line) => ["", line]));
    tick();
  }

  function button(id, on, off, begin) {
    const one = at(id);
    one.value = on ? off : begin;
    one.setAttribute("aria-pressed", String(on));
    const small = one.querySelector("small");
    if (small.textContent !== (on ? "on" : "off")) small.textContent = on ? "on" : "off";
  }

  function bar() {
    const box = at("bar");
    box.classList.toggle("unmarked", !state.marks.length);
    box.querySelectorAll(".mark").forEach((one) => one.remove());
    for (const mark of state.marks) {
      const line = document.createElementNS("http://www.w3.org/2000/svg", "path");
      line.setAttribute("class", "mark");
      line.setAttribute("d", `M${((1000 * mark.at) / state.reach).toFixed(1)} 0v60`);
      box.append(line);
    }
  }

  function list(id, lines) {
    const text = JSON.stringify(lines), box = at(id);
    if (box.dataset.shown === text) return;
    box.dataset.shown = text;
    box.replaceChildren(...lines.map(([level, first, second]) => {
      const line = document.createElement("li");
      if (level) line.className = level;
      for (const part of second === undefined ? [first] : [first, second]) {
        const span = document.createElement("span");
        span.textContent = part;
        line.append(span);
      }
      return line;
    }));
  }

  // --- marks: sound and vibration, once; the last one again until it is stopped
  const sound = {
    context: null,
    on: setting("sound", "on") === "on",
    wake() {
      if (!this.on) return;
      try {
        this.context = this.context || new AudioContext();
        this.context.resume();
      } catch { /* this browser makes no sound */ }
    },
    beep(times) {
      if (!this.on) return;
      if (navigator.vibrate) navigator.vibrate(Array(times * 2).fill(250));
      if (!this.context || this.context.state !== "running") return;
      for (let turn = 0; turn < times; turn += 1) {
        const tone = this.context.createOscillator(), level = this.context.createGain();
        const start = this.context.currentTime + 0.5 * turn;
        tone.frequency.value = 880;
        level.gain.value = 0.5;
        tone.connect(level).connect(this.context.destination);
        tone.start(start);
        tone.stop(start + 0.25);
      }
    },
  };
  const rung = new Map();
  function ring(run) {
    if (state.counting) {
      state.marks.forEach((mark, place) => {
        const last = place === state.marks.length - 1, then = rung.get(mark.name);
        if (run < mark.at || (then !== undefined && !(last && performance.now() - then > RING_AGAIN))) return;
        rung.set(mark.name, performance.now());
        sound.beep(last ? 5 : 3);
      });
    } else if (state.next_runs === "gas" && passed(since) / 1000 >= state.next_left && !rung.has("gas")) {
      rung.set("gas", performance.now());
      sound.beep(2);
    }
    if (state.discharge) rung.delete("gas");
  }

  // --- this screen
  function setting(name, otherwise) {
    try { return localStorage.getItem(`bench ${name}`) || otherwise; } catch { return otherwise; }
  }
  function choose(name, value) {
    try { localStorage.setItem(`bench ${name}`, value); } catch { /* for this page alone, then */ }
    at(name).querySelectorAll("[data-word]").forEach((one) => { one.hidden = one.dataset.word !== value; });
  }
  function light(value) {
    document.documentElement.dataset.light = value;
    choose("light", value);
  }
  const LIGHTS = ["system", "sun", "dark"];

  async function stayAwake() {
    let held = false;
    try {
      const lock = await navigator.wakeLock.request("screen");
      held = true;
      lock.addEventListener("release", () => { at("awake").hidden = true; });
    } catch { /* not granted, or not known here */ }
    if (document.hidden) return;
    at("awake").hidden = !held;
    at("asleep").hidden = held;
  }

  document.addEventListener("visibilitychange", () => {
    naps += 1;
    if (document.hidden) return;
    stayAwake();
    look().then((answered) => alone(!answered), () => alone(true));
    flush();
  });
  window.addEventListener("online", flush);
  window.addEventListener("storage", (event) => { // of another page of this browser
    ahead();
    show();
    if (event.newValue === null) look().catch(() => alone(true));
  });
  for (const form of document.querySelectorAll("form.press")) form.addEventListener("submit", press);
  at("undo").addEventListener("submit", undo);
  at("steps").addEventListener("submit", step);
  at("keep-titre").addEventListener("submit", keepTitre);
  at("light").addEventListener("click", () => {
    light(LIGHTS[(LIGHTS.indexOf(document.documentElement.dataset.light) + 1) % LIGHTS.length]);
  });
  at("sound").addEventListener("click", () => {
    sound.on = !sound.on;
    choose("sound", sound.on ? "on" : "off");
    sound.wake();
    sound.beep(1);
  });
  document.querySelector(".scripted").hidden = false;
  light(setting("light", "system"));
  choose("sound", sound.on ? "on" : "off");
  ahead();
  show();
  stayAwake();
  flush();
  setInterval(tick, 200);
  setTimeout(poll, POLL);
})();
