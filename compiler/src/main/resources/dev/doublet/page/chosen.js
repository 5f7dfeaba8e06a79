// The chosen signal.

function choose(signal) {
  if (chosen) chosen.button.setAttribute('aria-pressed', 'false');
  chosen = signal;
  signal.button.setAttribute('aria-pressed', 'true');
  const parts = signal.units.map(unit => {
    const inside = [unitAspects(unit)];
    if (unit.kind.onApproach) inside.push(approachOf(unit));
    return signal.units.length === 1 ? element('div', {}, ...inside) :
        element('fieldset', {}, element('legend', {}, unit.data.name), ...inside);
  });
  at('chosen').replaceChildren(
      element('h2', {}, 'Signal ' + signal.data.name),
      element('p', {class: 'soft'}, signal.data.form),
      element('p', {id: 'shows', role: 'status'}), faultsOf(signal), ...parts);
  tellChosen();
}

function unitAspects(unit) {
  unit.buttons = unit.kind.states.map((state, index) => {
    const calls = unit.data.calls[index];
    return element(
        'button', {type: 'button', 'aria-pressed': 'false', disabled: calls.length === 0 && '',
          onclick: () => calls.forEach(call => send(message(unit.data.bus, call)))},
        element('strong', {}, `${state.number} ${state.name}`), element('br', {}),
        element('span', {class: 'soft'}, calls.length ? calls.map(call => callWords(unit.data.bus, call)).join(', ') : 'no command calls it up'));
  });
  return element('ul', {class: 'aspects'}, ...unit.buttons.map(button => element('li', {}, button)));
}

function approachOf(unit) {
  const box = element('input', {type: 'checkbox', onchange: () => {
    unit.approached = box.checked;
    const on = box.checked ? 1 : 0;
    send({unit, on, words: `${unit.data.name}: ${on ? 'a train approaches' : 'no train approaches'}`});
  }});
  box.checked = unit.approached;
  unit.box = box;
  return element('p', {}, element('label', {}, box, ' A train approaches'));
}

function tellChosen() {
  for (const unit of chosen.units) {
    unit.kind.states.forEach((state, index) =>
        unit.buttons[index].setAttribute('aria-pressed', String(state === unit.state)));
  }
  const shown = shownBy(chosen, u => u.data.place || !u.state.words ? u.state.name : `${u.state.name} (${u.state.words})`);
  at('shows').textContent = (chosen.fault ? 'Is told to show ' : 'Shows ') + shown + paler(chosen);
  at('reading').textContent = readingOf(chosen);
}

// What a signal shows; where heads are commanded by themselves, each with its place.
function shownBy(signal, words) {
  return signal.units.map(unit => (unit.data.place ? unit.data.place + ' ' : '') + words(unit)).join(', ');
}

function paler(signal) {
  const looks = signal.units.flatMap(u => u.lamps.map(lamp => lamp.look));
  return looks.some(look => look && look.strength > 0 && !look.within) ?
      '. One of its colours is paler here than it is: no screen of sRGB shows it' : '';
}
