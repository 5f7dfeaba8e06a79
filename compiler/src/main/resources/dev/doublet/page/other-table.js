// Another table.

async function openTable(file) {
  const name = visible(file.name);
  let bytes;
  try {
    bytes = new Uint8Array(await file.arrayBuffer());
  } catch {
    at('opened').textContent = `${name} cannot be read. The table before it is kept.`;
    return;
  }
  const trial = await Reader.of(readerModule);
  const reason = trial.open(bytes);
  if (reason) {
    at('opened').textContent = `${name} is refused: ${reason}. The table before it is kept.`;
    return;
  }
  const fits = controllers.filter(c => trial.c.units() === c.units.length && trial.c.chains() === c.chains.length &&
      c.chains.every((chain, i) => trial.frame(i, 0).length === chain.shown.length));
  const controller = fits.find(c => c.data.name + '.bin' === file.name) || fits[0];
  if (!controller) {
    at('opened').textContent = `${name} is sound, but for other signals than those of this page.`;
    return;
  }
  controller.table = bytes;
  controller.units.forEach(unit => { unit.brightest.clear(); });
  goTo(clock.now);
  setRate();
  at('opened').textContent = `${name} now runs on controller ${controller.data.name}.`;
}

function takeDropped(dropped) {
  dropped.preventDefault();
  document.body.classList.remove('over');
  if (dropped.dataTransfer.files.length) openTable(dropped.dataTransfer.files[0]);
}
