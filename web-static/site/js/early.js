// Runs before the page is drawn, so that a chosen theme never flashes.
(() => {
  try {
    const chosen = localStorage.getItem("barmap.theme");
    if (chosen === "dark" || chosen === "light") {
      document.documentElement.dataset.theme = chosen;
    }
  } catch {
    // Storage may be switched off; the system's preference then decides.
  }
})();
