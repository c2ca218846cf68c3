import start from "./{program}";

// The parts of the engine that the page loads when it first needs them. `modewrightPart(name)`
// promises the started module of a part: "engine" (the package's main entry), "print", "files"
// or "sound".
// A part that could not be loaded is asked for anew the next time. Rust calls it in `engine.rs`.
const parts = {
  engine: ["./{engine}", "./{engine_wasm}"],
  print: ["./{print}", "./{print_wasm}"],
  files: ["./{files}", "./{files_wasm}"],
  sound: ["./{sound}", "./{sound_wasm}"],
};
const loaded = {};

async function load(name) {
  const [program, wasm] = parts[name];
  const part = await import(program);
  await part.default({ module_or_path: new URL(wasm, import.meta.url) });
  return part;
}

globalThis.modewrightPart = (name) =>
  (loaded[name] ??= load(name).catch((why) => {
    delete loaded[name];
    throw why;
  }));

const pipe = (bytes, through) => new Blob([bytes]).stream().pipeThrough(through);

// Packs what a link holds; fails where the browser cannot.
globalThis.modewrightPack = async (bytes) => {
  const packed = await new Response(pipe(bytes, new CompressionStream("deflate-raw"))).arrayBuffer();
  return new Uint8Array(packed);
};

// Unpacks it, up to so many bytes: a link comes from anybody.
globalThis.modewrightUnpack = async (bytes, most) => {
  const reader = pipe(bytes, new DecompressionStream("deflate-raw")).getReader();
  const parts = [];
  for (let sum = 0; ;) {
    const { done, value } = await reader.read();
    if (done) return new Uint8Array(await new Blob(parts).arrayBuffer());
    sum += value.length;
    if (sum > most) throw new RangeError("larger than a link may be");
    parts.push(value);
  }
};

// Gives a file to the reader. The browser may take its time with a large one.
globalThis.modewrightSave = (name, kind, content) => {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([content], { type: kind }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
};

globalThis.modewrightCopy = async (text) => navigator.clipboard.writeText(text);

// Prints the lesson and nothing else; after that the page is whole again.
const only = (alone) => document.documentElement.classList.toggle("lesson-only", alone);
globalThis.modewrightPrint = () => {
  only(true);
  print();
};
addEventListener("afterprint", () => only(false));

// Calls once when a place comes near what is seen.
globalThis.modewrightNear = (place, heard) => {
  const watch = new IntersectionObserver((seen) => {
    if (!seen.some((one) => one.isIntersecting)) return;
    watch.disconnect();
    heard();
  }, { rootMargin: "400px" });
  watch.observe(place);
};

// Keeps the page on the device. When another version has come beside it, the page is told.
const keep = async () => {
  const kept = await navigator.serviceWorker.register("./offline.js");
  kept.addEventListener("updatefound", () => {
    const next = kept.installing;
    next?.addEventListener("statechange", async () => {
      if (next.state !== "activated") return;
      const page = await (await fetch("./")).text();
      const own = import.meta.url.split("/").at(-1);
      const place = document.getElementById("newer");
      if (page.includes(own) || place.firstChild) return;
      place.append(document.getElementById("newer-said").content.cloneNode(true));
      place.querySelector("button").onclick = () => location.reload();
    });
  });
};

start({ module_or_path: new URL("./{wasm}", import.meta.url) }).then(() => {
  // After the first answer, so that it does not wait for what it does not need. A browser that
  // refuses shows the page all the same.
  if (navigator.serviceWorker) setTimeout(() => keep().catch(() => {}), 1500);
}, (why) => {
  const place = document.getElementById("page");
  const said = document.createElement("p");
  said.className = "waiting";
  said.textContent = `Modewright could not start in this browser (${why}). A current browser runs it.`;
  place.replaceChildren(said);
});
