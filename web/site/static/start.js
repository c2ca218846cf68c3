import start from "./{program}";

start({ module_or_path: new URL("./{wasm}", import.meta.url) }).catch((why) => {
  const place = document.getElementById("page");
  const said = document.createElement("p");
  said.className = "waiting";
  said.textContent = `Modewright could not start in this browser (${why}). A current browser runs it.`;
  place.replaceChildren(said);
});
