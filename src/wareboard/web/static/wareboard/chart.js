// Moving charts: puts the drawing that answers a finger in place of the still picture.
// The specification comes from its own URL and runs in Vega's interpreter, so no text is ever run as code.
"use strict";
(() => {
  const night = matchMedia("(prefers-color-scheme: dark)");

  function isDark() {
    const light = document.documentElement.dataset.light;
    return light ? light === "dark" : night.matches;
  }

  async function draw(place) {
    const url = isDark() && place.dataset.chartSpecDark ? place.dataset.chartSpecDark : place.dataset.chartSpec;
    const reply = await fetch(url, { headers: { Accept: "application/json" }, credentials: "same-origin" });
    if (!reply.ok) return; // the still picture stays
    const spec = await reply.json();
    const moving = document.createElement("div");
    moving.className = "moving";
    moving.setAttribute("role", "img");
    moving.setAttribute("aria-label", place.dataset.chartLabel ?? "");
    place.append(moving); // in the page before it is drawn: its width is the page's
    try {
      const shown = await vegaEmbed(moving, spec, {
        ast: true,
        actions: false,
        defaultStyle: false,
        renderer: "canvas",
        tooltip: { disableDefaultStyle: true },
      });
      place.chartView?.finalize();
      place.chartView = shown.view;
    } catch (error) {
      moving.remove();
      throw error;
    }
    for (const before of place.querySelectorAll(".still, .moving")) {
      if (before !== moving) before.remove();
    }
  }

  function drawAll(root) {
    for (const place of root.querySelectorAll("[data-chart-spec]")) {
      draw(place).catch((error) => console.warn("The still picture stays:", error));
    }
  }

  night.addEventListener("change", () => drawAll(document));
  document.addEventListener("htmx:load", (event) => {
    if (event.target !== document.body) drawAll(event.target);
  });
  drawAll(document);
})();
