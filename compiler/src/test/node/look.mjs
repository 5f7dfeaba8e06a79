// Looks at a page in Debian's Chromium. Arguments: what to do, and the page; what more there is to say
// comes as JSON on standard input. What was seen goes to standard output, as JSON.
import { chromium } from 'playwright-core';
import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';

const [what, file] = process.argv.slice(2);
const address = file.startsWith('http:') ? file : pathToFileURL(file).href;
const asked = JSON.parse(readFileSync(0, 'utf8') || '{}');
const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox'] });

/** The page, once it has begun; what it asked of a network and what it complained of are noted. */
async function open({ width = 1280, height = 900, theme = 'light', still = true } = {}) {
  const context = await browser.newContext({
    viewport: { width, height },
    colorScheme: theme,
    reducedMotion: still ? 'reduce' : 'no-preference',
  });
  const page = await context.newPage();
  page.asked = [];
  page.complaints = [];
  page.on('request', request => page.asked.push(request.url()));
  page.on('console', message => page.complaints.push(message.text()));
  page.on('pageerror', error => page.complaints.push(String(error)));
  page.on('dialog', dialog => { page.complaints.push('dialog ' + dialog.message()); dialog.dismiss(); });
  await page.goto(address);
  if (await page.locator('#signals').count()) await page.evaluate(() => begun);
  return page;
}

const verbs = {
  /** Clicks and lets time pass, as steps say; every lamp's bytes after each, along the chains. */
  async play() {
    const page = await open();
    return page.evaluate(steps => {
      const lamps = () => controllers.flatMap(c => c.chains.flatMap(chain =>
          chain.lamps.map(lamp => lamp.drawn.dataset.bytes))).join('');
      return steps.map(step => {
        if (step.go !== undefined) goOn(step.go);
        else if (step.night) document.getElementById('night').click();
        else {
          choose(signals.find(s => s.data.name === step.signal));
          if (step.state !== undefined) chosen.units[step.unit].buttons[step.state].click();
          else document.querySelectorAll('#chosen input[type=checkbox]')[step.box].click();
        }
        return lamps();
      });
    }, asked.steps);
  },

  /**
   * Rules of accessibility broken, at each size and theme; words that a drawing cuts off; what is wider than a screen, or than A4 and Letter
   * with margins of 12 mm; what was asked of a network; complaints.
   */
  async audit() {
    const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
    const found = [];
    for (const theme of ['light', 'dark']) {
      for (const width of [1280, 820, 390]) {
        const page = await open({ width, theme });
        await page.evaluate(axe);
        const result = await page.evaluate(() => globalThis.axe.run(document, { resultTypes: ['violations'] }));
        for (const one of result.violations) {
          found.push(`${theme} ${width}: ${one.id}: ${one.nodes.map(n => n.html.slice(0, 120)).slice(0, 3).join(' | ')}`);
        }
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        if (wide > 0) found.push(`${theme} ${width}: ${wide} pixels wider than the screen`);
        found.push(...await page.evaluate(() => [...document.querySelectorAll('svg text')].filter(text => {
          const words = text.getBoundingClientRect(), drawing = text.ownerSVGElement.getBoundingClientRect();
          return words.left < drawing.left - 1 || words.right > drawing.right + 1;
        }).map(text => 'cut off: ' + text.textContent)));
        await page.emulateMedia({ media: 'print', colorScheme: theme });
        for (const paper of [703, 725]) {
          await page.setViewportSize({ width: paper, height: 1000 });
          const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
          if (over > 0) found.push(`${over} pixels wider than paper of ${paper}`);
        }
        found.push(...page.asked.filter(url => !url.startsWith(address)).map(url => 'asked for ' + url));
        found.push(...page.complaints);
        await page.context().close();
      }
    }
    return found;
  },

  /** Pictures of the page. */
  async shoot() {
    for (const { to, width, height, theme, script } of asked.pictures) {
      const page = await open({ width, height, theme });
      if (script) await page.evaluate(script);
      await page.screenshot({ path: to });
      await page.context().close();
    }
    return [];
  },

  /** What a script says on the page; anything that the page complained of comes first. */
  async ask() {
    const page = await open(asked);
    const answer = await page.evaluate(asked.script);
    return [...page.complaints, answer];
  },

  /** What a script says once something is so, after another at the beginning; a file tells when that is done. */
  async attend() {
    const page = await open({ still: false });
    await page.evaluate(asked.first);
    writeFileSync(asked.begun, '');
    while (!await page.evaluate(asked.until)) await page.waitForTimeout(100);
    return [...page.complaints, await page.evaluate(asked.script)];
  },

  /** The same after keys alone. */
  async press() {
    const page = await open();
    for (const key of asked.keys) {
      if (key.startsWith('"')) await page.keyboard.type(key.slice(1));
      else await page.keyboard.press(key);
    }
    return [...page.complaints, await page.evaluate(asked.script)];
  },

  /** What is said of tables that are chosen one after the other. */
  async tables() {
    const page = await open();
    const said = [];
    for (const table of asked.files) {
      await page.evaluate(() => { document.getElementById('opened').textContent = ''; });
      await page.setInputFiles('#file', { name: table.name, mimeType: '', buffer: Buffer.from(table.hex, 'hex') });
      await page.waitForFunction(() => document.getElementById('opened').textContent);
      said.push(await page.textContent('#opened'));
    }
    return said;
  },

  /**
   * The most flashes of any lamp that begin in any second, as the page plays its table for so many seconds. What flashes changes by
   * a tenth of the screen's luminance, and back (WCAG 2.2, general flash).
   */
  async flashes() {
    const page = await open();
    return page.evaluate(seconds => {
      for (const signal of signals) {
        for (const unit of signal.units) {
          const flashing = unit.kind.states.findIndex(s => Object.keys(s.flashing).length);
          (unit.data.calls[flashing] || []).forEach(call => send(message(unit.data.bus, call)));
        }
      }
      const luminance = coded => coded <= 0.04045 ? coded / 12.92 : ((coded + 0.055) / 1.055) ** 2.4;
      const lamps = [...document.querySelectorAll('.lamp')].map(lamp => ({lamp, turn: 0, rises: false, begun: []}));
      let most = 0;
      const start = clock.now;
      for (let wall = 0; wall < 1000 * seconds; wall += 5) {
        goOn(start + wall * clock.rate);
        for (const one of lamps) {
          const now = luminance(Number(one.lamp.getAttribute('fill-opacity')));
          if (one.rises ? now > one.turn : now < one.turn) one.turn = now;
          if (Math.abs(now - one.turn) < 0.1) continue;
          one.turn = now;
          one.rises = !one.rises;
          if (one.rises) one.begun = [...one.begun.filter(time => time > wall - 1000), wall];
          most = Math.max(most, one.begun.length);
        }
      }
      return [most, clock.rate];
    }, asked.seconds);
  },

  /** What a page says that opens behind a link, and rules of accessibility that it breaks. */
  async open() {
    const page = await open(asked);
    await page.waitForSelector(asked.link);
    const [opened] = await Promise.all([page.context().waitForEvent('page'), page.click(asked.link)]);
    await opened.waitForLoadState();
    const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
    await opened.evaluate(axe);
    const result = await opened.evaluate(() => globalThis.axe.run(document, { resultTypes: ['violations'] }));
    return [...page.complaints, ...result.violations.map(one => one.id), await opened.evaluate(asked.script)];
  },

  /** How long after a file was saved its title is on the page, in milliseconds, for each of some texts. */
  async follow() {
    const page = await open({ still: false });
    const took = [];
    for (const [title, text] of asked.texts) {
      await page.waitForTimeout(300);
      writeFileSync(asked.file + '.new', text);
      const from = performance.now();
      renameSync(asked.file + '.new', asked.file);
      await page.waitForFunction(words => document.querySelector('h1').textContent.includes(words), title, { polling: 'raf' });
      took.push(performance.now() - from);
    }
    return took;
  },

  /** How long until something is seen, and what a frame costs at the 95th percentile, in milliseconds. */
  async measure() {
    const page = await open({ still: false });
    const first = await page.evaluate(() => performance.getEntriesByName('first-contentful-paint')[0].startTime);
    const frame = await page.evaluate(() => {
      play(false);
      for (const signal of signals) {
        for (const unit of signal.units) {
          const flashing = unit.kind.states.findIndex(s => Object.keys(s.flashing).length);
          const calls = unit.data.calls[flashing < 0 ? 1 % unit.kind.states.length : flashing];
          calls.forEach(call => send(message(unit.data.bus, call)));
        }
      }
      const took = [];
      for (let i = 0; i < 1200; i++) {
        const start = performance.now();
        goOn(clock.now + 16);
        took.push(performance.now() - start);
      }
      took.sort((a, b) => a - b);
      return took[Math.floor(took.length * 0.95)];
    });
    return [first, frame];
  },
};

try {
  console.log(JSON.stringify(await verbs[what]()));
} finally {
  await browser.close();
}
