// Report every mark the screen shows as taken, by the element that names the last one.
new MutationObserver((changes) => {
  for (const { target } of changes) {
    const id = target.dataset.last;
    if (id) cueLadderShown(id);
  }
}).observe(document, { subtree: true, attributeFilter: ["data-last"] });
