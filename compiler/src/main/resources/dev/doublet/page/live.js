// What the server tells of: files that were saved, and what arrives from a broker.
let version = +at('live').dataset.version;
let pages = begun;

const toBase64 = bytes => btoa(String.fromCharCode(...bytes));
const served = new EventSource('events');

// A layout that was saved takes the place of the one before; time, and what was sent, stay as they are.
async function takePage(told) {
  if (told <= version) return;
  const text = await (await fetch('./')).text(), page = new DOMParser().parseFromString(text, 'text/html');
  const next = JSON.parse(page.getElementById('layout').textContent);
  const buses = LAYOUT.buses.map(bus => next.buses.findIndex(b => b.name === bus.name && b.speaks === bus.speaks));
  version = +page.getElementById('live').dataset.version;
  document.title = page.title;
  document.querySelector('header').replaceWith(page.querySelector('header'));
  document.querySelectorAll('template').forEach(one => one.remove());
  document.body.append(...page.querySelectorAll('template'));
  const bus = buses[+at('bus').value], name = chosen && chosen.data.name;
  LAYOUT = next;
  await makeSignals();
  const units = new Map(controllers.flatMap(c => c.units).map(unit => [unit.data.name, unit]));
  sent = sent.map(one => one.unit ? {...one, unit: units.get(one.unit.data.name)} :
      one.bus === undefined ? one : {...one, bus: buses[one.bus]})
      .filter(one => one.night !== undefined || (one.bus === undefined ? one.unit : one.bus >= 0));
  if (bus >= 0) at('bus').value = bus;
  if (LAYOUT.buses.length) chooseBus();
  chosen = null;
  goTo(clock.now);
  tellSent();
  const again = signals.find(s => s.data.name === name) || signals[0];
  if (again) choose(again); else at('chosen').replaceChildren();
}

function tellFindings(lines, words) {
  at('followed').textContent = words;
  at('findings').replaceChildren(...lines.split('\n').filter(line => line).map(line => element('li', {}, line)));
}

served.addEventListener('layout', told => { pages = pages.then(() => takePage(+told.data)); });
served.addEventListener('sound', told => tellFindings(told.data, told.data ?
    'The files are as shown here. What was found in them:' : 'The files are as shown here, and nothing was found in them.'));
served.addEventListener('broken', told => tellFindings(told.data,
    'The files have errors now: below stands the last picture without.'));
served.addEventListener('error', () => {
  at('followed').textContent = served.readyState === EventSource.CLOSED ?
      'What served this page has ended: what is shown follows no files any more.' : 'What serves this page does not answer.';
});
