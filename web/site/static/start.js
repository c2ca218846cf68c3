import start from "./{program}";

// The parts of the engine that the page loads when it first needs them. `modewrightPart(name)`
// promises the started module of a part: "engine" (the package's main entry), "print" or "files".
// A part that could not be loaded is asked for anew the next time. Rust calls it in `engine.rs`.
const parts = {
  engine: ["./{engine}", "./{engine_wasm}"],
  print: ["./{print}", "./{print_wasm}"],
  files: ["./{files}", "./{files_wasm}"],
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

start({ module_or_path: new URL("./{wasm}", import.meta.url) }).catch((why) => {
  const place = document.getElementById("page");
  const said = document.createElement("p");
  said.className = "waiting";
  said.textContent = `Modewright could not start in this browser (${why}). A current browser runs it.`;
  place.replaceChildren(said);
});
