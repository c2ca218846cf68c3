// The custom elements <modewright-wheel>, -tune, -ask and -lesson, for any page: one classic
// script, no framework, nothing inline. It reserves each element's room at once, loads the program
// beside it when the first one comes near the view, and shares it among all of them. What goes
// wrong is told within the element, whose own text stays readable.
(() => {
  "use strict";

  const ATTRIBUTES = ["home", "mode", "view", "sound", "speed", "count-in", "rows", "marks", "values", "show", "instrument", "level"];
  const own = document.currentScript?.src
    ?? [...document.scripts].map((one) => one.src).find((src) => /modewright-elements\.js([?#]|$)/.test(src));
  if (!own || !("adoptedStyleSheets" in Document.prototype) || customElements.get("modewright-wheel")) return;

  const look = new CSSStyleSheet();
  look.replaceSync("{style}");
  try {
    // So that turning the wheel can be seen: a shadow root cannot say this for itself.
    CSS.registerProperty({ name: "--modewright-turn", syntax: "<angle>", inherits: true, initialValue: "0deg" });
  } catch {
    // Said already, or not to be said here: the wheel turns without being seen to.
  }

  const load = async (script, wasm) => {
    const made = await import(new URL(script, own).href);
    await made.default({ module_or_path: new URL(wasm, own) });
    return made;
  };

  // The program, once for all elements; asked for again if it failed.
  let asked;
  const program = () => {
    asked ??= load("{program}", "{wasm}").then((made) => {
      later(startWhenIdle);
      return made;
    }, (why) => {
      asked = undefined;
      throw why;
    });
    return asked;
  };

  // Parts that are loaded from beside this script when they are first wanted: the engine that knows
  // instruments; and what tells the walk through a tune and makes its sound.
  const parts = {
    engine: ["{engine}", "{engine_wasm}"],
    lesson: ["{lesson}", "{lesson_wasm}"],
  };
  const loaded = {};
  const part = (name) =>
    (loaded[name] ??= load(...parts[name]).catch((why) => {
      delete loaded[name];
      throw why;
    }));
  const ask = (name, call, values, done) =>
    part(name).then((it) => it[call](...values)).then((answer) => done(answer), (why) => done(undefined, why ?? false));

  // What sounds: one thing at a time, and nothing before the reader asks. How it goes is told in the
  // numbers of `src/sound.rs`.
  const [LOADS, ENDED, SILENT, ABSENT] = [-2, -3, -4, -5];
  let heard;
  let count = 0;
  const end = (why) => {
    const { tell, close } = heard ?? {};
    heard = undefined;
    close?.();
    tell?.(why);
  };
  addEventListener("keydown", ({ key }) => key === "Escape" && end(ENDED));
  const hear = (what, text, loudness, speed, bars, tell) => {
    end(ENDED);
    count += 1;
    let context;
    try {
      // While the reader's hand is on the button, or a browser gives no sound.
      context = new AudioContext();
      context.resume();
    } catch {
      tell(SILENT);
      return count;
    }
    let sound;
    let timer;
    let last = LOADS;
    const mine = {
      number: count,
      tell,
      louder: (to) => {
        loudness = to;
        sound?.louder(to);
      },
      pace: (to) => {
        speed = to;
        if (!sound) return;
        try {
          // What sounded closes its own place for sound.
          context = new AudioContext();
          sound = sound.at(context, loudness, speed);
        } catch (why) {
          sound = undefined;
          end(typeof why === "number" ? why : SILENT);
        }
      },
      close: () => {
        clearInterval(timer);
        sound?.free();
        if (context.state !== "closed") context.close();
      },
    };
    heard = mine;
    tell(LOADS);
    part("lesson").then(({ Sound }) => {
      if (heard !== mine) return;
      sound = Sound[what](context, text, loudness, speed, bars);
      timer = setInterval(() => {
        const now = sound.tick();
        if (now === ENDED) end(ENDED);
        else if (now !== last) tell(last = now);
      }, 40);
    }).catch((why) => heard === mine && end(typeof why === "number" ? why : ABSENT));
    return count;
  };
  const louder = (number, to) => heard?.number === number && heard.louder(to);
  const pace = (number, to) => heard?.number === number && heard.pace(to);
  const hush = (number) => {
    if (heard?.number !== number) return;
    heard.tell = undefined;
    end();
  };

  const later = (work) => (window.requestIdleCallback ?? setTimeout)(work);

  // Elements that are not shown yet. Once the program is there, they follow one by one when the
  // page has nothing else to do, so that a page is whole when it is printed.
  const waiting = new Set();
  const startWhenIdle = () => {
    const [next] = waiting;
    if (!next) return;
    next.start();
    later(startWhenIdle);
  };
  addEventListener("beforeprint", () => {
    if (asked) for (const one of [...waiting]) one.start();
  });

  const near = new IntersectionObserver((seen) => {
    for (const { target, isIntersecting } of seen) {
      if (isIntersecting) target.start();
    }
  }, { rootMargin: "500px 0px" });

  // Elements that keep the height reserved for them, because what follows them is in view and
  // would jump. They get their own height when nobody sees it.
  const held = new Set();
  const freeUnseen = () => {
    for (const one of [...held]) one.free();
  };
  const left = new IntersectionObserver(freeUnseen);
  addEventListener("resize", () => {
    for (const one of waiting) one.reserve();
    for (const one of [...held]) one.free(true);
  });

  /** The height that an element will take, in pixels, from its width, its text and what is asked. */
  const estimate = (kind, width, em, text, attribute) => {
    const lines = (signs) => Math.max(1, Math.ceil((signs * 0.5 * em) / Math.max(width, 1))) * 1.5 * em;
    const wheel = () => {
      const wide = Math.min(width, 38 * em);
      const drawing = Math.min(wide, 34 * em);
      const legend = Math.ceil((46 * em) / Math.max(wide, 1)) * 1.65 * em + 1.1 * em;
      const steppers = wide >= 32.5 * em ? 4.6 * em : 9.8 * em;
      const foot = (wide >= 31 * em || attribute("sound") === "off" ? 4.2 : 8.6) * em;
      return 2.5 * em + drawing + legend + steppers + foot + 1.9 * em + lines(110) + 1.5 * em + 3.2 * em;
    };
    const music = text.split("\n").filter((line) => !/^\s*([A-Za-z+]:|%)/.test(line)).join(" ");
    const notes = (music.match(/[A-Ga-gz]/g) ?? []).length;
    const rows = (attribute("rows") ?? "note").split(/[,\s]+/).length;
    const staff = () => {
      const system = 68 + rows * 17;
      const systems = Math.max(1, Math.ceil((notes * 17) / Math.max(width - 60, 100)));
      return systems * system + 40 + 1 * em + (attribute("sound") === "off" ? 3.4 : width < 36 * em ? 7.4 : 4.2) * em;
    };
    const range = () => Math.min(width, 44 * em) * 0.214 + 2.5 * em + lines(60) * 2 + lines(70);
    const usual = kind === "modewright-lesson" ? "staff verdict sure told range wheel walk" : "staff verdict range";
    const shown = (attribute("show") ?? usual).split(/[,\s]+/);
    switch (kind) {
      case "modewright-wheel":
        return wheel();
      case "modewright-ask":
        return 1.5 * em + 10.5 * em + lines(60) + 7.3 * em;
      default: {
        const heights = {
          title: () => 2 * em,
          staff,
          verdict: () => 2.2 * em + lines(90),
          sure: () => lines(60),
          told: () => lines(150) + em,
          range,
          chances: () => 14 * em,
          wheel,
          walk: () => lines(notes * 9) + 18 * em,
        };
        return shown.reduce((sum, part) => sum + (heights[part]?.() ?? 0), 2 * em);
      }
    }
  };

  class ModewrightElement extends HTMLElement {
    static observedAttributes = ATTRIBUTES;

    #frame;
    #stage;
    #fault;
    #app;
    #starting = false;
    #told = false;
    #watch = new MutationObserver(() => this.#changed());

    connectedCallback() {
      if (!this.#frame) {
        const root = this.attachShadow({ mode: "open" });
        root.adoptedStyleSheets = [look];
        this.#frame = document.createElement("div");
        this.#frame.className = "frame loading held";
        this.#fault = document.createElement("p");
        this.#fault.className = "mistake";
        this.#fault.setAttribute("role", "alert");
        const text = document.createElement("div");
        text.className = "text";
        text.append(document.createElement("slot"));
        this.#frame.append(this.#fault, text);
        root.append(this.#frame);
      }
      this.#watch.observe(this, { childList: true, characterData: true, subtree: true });
      if (this.#app) return;
      this.reserve();
      waiting.add(this);
      near.observe(this);
      if (asked) later(startWhenIdle);
    }

    disconnectedCallback() {
      // An element that is only moved is back by then.
      queueMicrotask(() => {
        if (this.isConnected) return;
        this.#watch.disconnect();
        near.unobserve(this);
        left.unobserve(this);
        waiting.delete(this);
        held.delete(this);
        this.#app?.free();
        this.#app = undefined;
        this.#stage?.remove();
        this.#frame.classList.add("loading", "held");
      });
    }

    attributeChangedCallback() {
      if (this.#frame) this.#changed();
    }

    /** Several changes at once are one. */
    #changed() {
      if (this.#told) return;
      this.#told = true;
      queueMicrotask(() => {
        this.#told = false;
        if (!this.isConnected) return;
        if (!this.#app) {
          this.reserve();
          return;
        }
        try {
          this.#app.update(this.textContent);
        } catch (why) {
          this.#fail(why);
        }
      });
    }

    /** Reserves the room that the element will probably take. */
    reserve() {
      const style = getComputedStyle(this);
      const height = estimate(this.localName, this.#frame.clientWidth, parseFloat(style.fontSize), this.textContent, (name) => this.getAttribute(name));
      this.#frame.style.setProperty("--modewright-reserved", `${Math.ceil(height)}px`);
    }

    /** Shows the element, loading the program where it is not yet there. */
    async start() {
      waiting.delete(this);
      near.unobserve(this);
      if (this.#app || this.#starting) return;
      this.#starting = true;
      this.#fault.textContent = "";
      // A walk comes from a part: it is loaded beside the program, not after it.
      if (/walk/.test(this.getAttribute("show") ?? (this.localName === "modewright-lesson" && "walk"))) part("lesson").catch(() => {});
      try {
        const made = await program();
        if (!this.isConnected || this.#app) return;
        this.#stage = document.createElement("div");
        this.#stage.className = "stage";
        this.#frame.append(this.#stage);
        this.#app = made.mount(this.#stage, this, this.textContent, { ready: () => this.#stand(), ask, hear, louder, pace, hush });
      } catch (why) {
        if (this.isConnected) this.#fail(why);
      } finally {
        this.#starting = false;
      }
    }

    /** Everything stands: the text makes way. */
    #stand() {
      this.#frame.classList.remove("loading");
      if (!this.#frame.classList.contains("held")) return;
      held.add(this);
      left.observe(this);
      this.free();
    }

    /** Gives the element its own height, where nothing in view would move. */
    free(now = false) {
      const { top, bottom } = this.#frame.getBoundingClientRect();
      const own = this.#stage.getBoundingClientRect().height;
      const same = Math.abs(own - this.#frame.clientHeight) < 0.5;
      // Nothing follows but the margins of the page: in a frame, as a rule.
      const last = document.documentElement.scrollHeight - scrollY - bottom < 4 * parseFloat(getComputedStyle(this).fontSize);
      // What follows is out of view now, and will be.
      if (!now && !same && !last && Math.min(bottom, top + own) < innerHeight) return;
      held.delete(this);
      left.unobserve(this);
      this.#frame.classList.remove("held");
    }

    #fail(why) {
      this.#fault.textContent = `This could not be shown here (${why?.message ?? why}). What it is about stands below as text.`;
      this.#frame.classList.add("loading", "failed");
    }
  }

  for (const name of ["wheel", "tune", "ask", "lesson"]) {
    customElements.define(`modewright-${name}`, class extends ModewrightElement {});
  }
})();
