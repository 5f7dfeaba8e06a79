// What the server tells of: files that were saved, and what arrives from a broker.
const MOST = 1000; // commands that are remembered, beside the last of each topic
const KINDS = {live: 'arrived', earlier: 'arrived before', retained: 'retained by the broker'};
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

// Findings come after the number of the page of their texts, each behind its place there.
function tellFindings(told, words) {
  const [number, ...lines] = told.split('\n');
  at('followed').textContent = words || (lines.length ? 'The files are as shown here. What was found in them:' :
      'The files are as shown here, and nothing was found in them.');
  at('findings').replaceChildren(...lines.map(line => {
    const [place, ...rest] = line.split(' ');
    return element('li', {}, place === '-' ? rest.join(' ') :
        element('a', {href: `text${number}#${place}`, target: 'findings'}, rest.join(' ')));
  }));
}

// A command that arrived goes where a throttle's goes: to the readers, at the end of the time that was.
function arrive(kind, topic, payload) {
  const text = bytes => visible(new TextDecoder().decode(bytes)), name = text(topic), words = `${name}: ${text(payload)}`;
  if (kind === 'long') return say(`${name}: what arrived is too long for any aspect, and is not shown.`);
  const last = sent.length ? sent[sent.length - 1].at : 0;
  if (clock.now < last) goTo(last);
  if (sent.length >= 2 * MOST) forgetSuperseded();
  LAYOUT.buses.forEach((bus, index) => {
    if (bus.speaks === 'MQTT') take({bus: index, topic, payload, words: `${bus.name}, ${words} (${KINDS[kind]})`});
  });
}

// Of what was sent long ago the last of each topic is kept.
function forgetSuperseded() {
  const old = sent.slice(0, -MOST), key = one => one.bus + ' ' + one.topic;
  const last = new Map(old.filter(one => one.topic).map(one => [key(one), one]));
  sent = [...old.filter(one => !one.topic || last.get(key(one)) === one), ...sent.slice(-MOST)];
}

// Publishes; what the broker makes of it comes back as an arrival.
async function publish(one) {
  const answer = await fetch('publish', {method: 'POST', body: `${toBase64(one.topic)} ${toBase64(one.payload)}`});
  say(answer.ok ? `${one.words}: published.` : await answer.text());
}

served.addEventListener('command', told => {
  const [kind, topic, payload] = told.data.split(' ');
  pages = pages.then(() => arrive(kind, fromBase64(topic), fromBase64(payload || '')));
});
served.addEventListener('broker', told => {
  const [state, ...words] = told.data.split(' ');
  outlet = state === 'publishes' ? publish : null;
  at('joined').textContent = words.join(' ') + (state === 'publishes' ? ' What is sent to topics here is published there.' :
      state === 'joined' ? ' What is sent here is published to nobody.' : '');
});
served.addEventListener('layout', told => { pages = pages.then(() => takePage(+told.data)); });
served.addEventListener('sound', told => tellFindings(told.data, ''));
served.addEventListener('broken', told => tellFindings(told.data,
    'The files have errors now: below stands the last picture without.'));
served.addEventListener('error', () => {
  at('followed').textContent = served.readyState === EventSource.CLOSED ?
      'What served this page has ended: what is shown follows no files any more.' : 'What serves this page does not answer.';
});
