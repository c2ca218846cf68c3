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

// What takes time is answered by a call of `done`, with the answer or with what went wrong.
const answer = (promise, done) => promise.then((it) => done(it), (why) => done(undefined, why ?? false));

// Calls a function of a part.
globalThis.modewrightAsk = (part, name, values, done) =>
  answer(modewrightPart(part).then((it) => it[name](...values)), done);

// The bytes of a file.
globalThis.modewrightRead = (file, done) => answer(file.arrayBuffer(), done);

const pipe = (bytes, Stream) => new Blob([bytes]).stream().pipeThrough(new Stream("deflate-raw"));

// Packs what a link holds; fails where the browser cannot.
const pack = async (bytes) => new Response(pipe(bytes, CompressionStream)).arrayBuffer();
globalThis.modewrightPack = (bytes, done) => answer(pack(bytes), done);

// Unpacks it, up to so many bytes: a link comes from anybody.
const unpack = async (bytes, most) => {
  const reader = pipe(bytes, DecompressionStream).getReader();
  const parts = [];
  for (let sum = 0; ;) {
    const { done, value } = await reader.read();
    if (done) return new Blob(parts).arrayBuffer();
    sum += value.length;
    if (sum > most) throw new RangeError("larger than a link may be");
    parts.push(value);
  }
};
globalThis.modewrightUnpack = (bytes, most, done) => answer(unpack(bytes, most), done);

// Gives a file to the reader. The browser may take its time with a large one.
globalThis.modewrightSave = (name, kind, content) => {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([content], { type: kind }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
};

const copy = async (text) => navigator.clipboard.writeText(text);
globalThis.modewrightCopy = (text, done) => answer(copy(text), done);

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
const tell = async () => {
  const page = await (await fetch("./")).text();
  const place = document.getElementById("newer");
  if (place.firstChild || page.includes(import.meta.url.split("/").at(-1))) return;
  place.append(document.getElementById("newer-said").content.cloneNode(true));
  place.querySelector("button").onclick = () => location.reload();
};
const keep = async () => {
  const kept = await navigator.serviceWorker.register("./offline.js");
  const watch = () => {
    const next = kept.installing;
    next?.addEventListener("statechange", () => next.state === "installed" && tell().catch(() => {}));
  };
  watch();
  kept.addEventListener("updatefound", watch);
  if (kept.active) await tell();
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
