package dev.doublet.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.JsonNode;
import dev.doublet.Build;
import dev.doublet.bus.Packet;
import dev.doublet.golden.Case;
import dev.doublet.layout.Answer;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Feed;
import dev.doublet.layout.Message;
import dev.doublet.layout.Signal;
import dev.doublet.layout.Unit;
import dev.doublet.source.Visible;
import dev.doublet.table.FadingReader;
import dev.doublet.table.Lowering;
import dev.doublet.table.TableFault;
import dev.doublet.table.TableReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.TreeMap;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The page of a layout, as a browser shows it. */
@Tag("slow")
class LayoutPageInBrowserTest {
  private static final Case EVERY = Case.of(Path.of("src/test/resources/cases/page/every-way.md"));

  private static final String NO_MORE = " That permits no more than was meant.";

  @TempDir private Path folder;

  @BeforeAll
  static void wantABrowser() {
    Browser.assumeInstalled();
  }

  /** What a person does on the page, and the controllers of the layout in Java. */
  private static final class Both {
    private final Build build;
    private final Map<Controller, TableReader> readers =
        new TreeMap<>((one, other) -> one.name().compareTo(other.name()));
    private final Map<Controller, FadingReader> lamps =
        new TreeMap<>((one, other) -> one.name().compareTo(other.name()));
    private final List<Map<String, ?>> steps = new ArrayList<>();
    private final List<String> expected = new ArrayList<>();
    private long now;
    private boolean night;

    Both(Build build) throws TableFault {
      this.build = build;
      for (Controller controller : controllers()) {
        TableReader reader = TableReader.open(Pages.tables(build).get(controller.name()));
        readers.put(controller, reader);
        lamps.put(controller, new FadingReader(reader));
      }
      frame();
    }

    List<Controller> controllers() {
      return Pages.layout(build).controllers();
    }

    /** Clicks an aspect of a unit. */
    void call(Signal signal, int unit, int state) {
      Unit called = signal.units().get(unit);
      Optional<Answer> answer =
          called.kind().answers().stream().filter(a -> a.state() == state).findFirst();
      if (answer.isPresent()) {
        called.kind().way().calling(called, answer.get()).forEach(m -> send(called, m));
      }
      step(Map.of("signal", signal.name(), "unit", unit, "state", state));
    }

    private void send(Unit unit, Message message) {
      for (Controller controller : controllers()) {
        int bus = Lowering.buses(controller).indexOf(unit.command().bus());
        if (bus >= 0) {
          send(readers.get(controller), bus, message);
        }
      }
      frame();
    }

    private void send(TableReader reader, int bus, Message message) {
      if (message instanceof Message.ToAccessory to) {
        reader.packet(bus, to.packet().bytes(), now);
      } else if (message instanceof Message.ToTopic to) {
        reader.topic(bus, utf8(to.topic()), utf8(to.payload()), now);
      } else {
        reader.event(bus, ((Message.ToAll) message).event().bits(), now);
      }
    }

    /** Says that a train approaches, or none any more. */
    void approach(Signal signal, int unit, int box, boolean on) {
      for (Controller controller : controllers()) {
        int place = Lowering.order(controller).indexOf(signal.units().get(unit));
        if (place >= 0) {
          readers.get(controller).setApproach(place, on, now);
        }
      }
      step(Map.of("signal", signal.name(), "unit", unit, "box", box));
    }

    void turnNight() {
      night = !night;
      readers.values().forEach(r -> r.setNight(night));
      step(Map.of("night", true));
    }

    void go(long millis) {
      now += millis;
      step(Map.of("go", now));
    }

    private void step(Map<String, ?> step) {
      steps.add(step);
      expected.add(frame());
    }

    /** Every lamp's bytes, as the page notes them. */
    private String frame() {
      StringBuilder all = new StringBuilder();
      for (Controller controller : controllers()) {
        controller
            .chains()
            .forEach(
                chain -> {
                  byte[] bytes = lamps.get(controller).leds(chain.index(), now);
                  int channels = chain.part().channels();
                  for (Unit unit : Lowering.order(controller)) {
                    if (unit.chain() == chain) {
                      for (int place = 0; place < unit.kind().leds(); place++) {
                        int from = (unit.led() + place) * channels;
                        Feed feed = unit.kind().places().get(place);
                        for (int output = 0; output < channels; output++) {
                          boolean sent =
                              feed.chip().isEmpty() || feed.lamps().get(output) != Feed.NONE;
                          int to = from + output;
                          all.append(HexFormat.of().formatHex(bytes, to, sent ? to + 1 : to));
                        }
                      }
                    }
                  }
                });
      }
      return all.toString();
    }

    private static byte[] utf8(String text) {
      return text.getBytes(StandardCharsets.UTF_8);
    }
  }

  @Test
  void lamps_are_lit_as_the_reader_in_java_lights_them_for_a_thousand_commands() throws Exception {
    Random random = new Random(9);
    agree(Pages.built(Pages.DEMO, Pages::fromProject), 700, random);
    agree(Pages.built(EVERY.root(), EVERY.reader()), 300, random);
    agree(Pages.built("examples/quarry/layout.yaml", Pages::fromProject), 100, random);
  }

  private void agree(Build build, int commands, Random random) throws Exception {
    Both both = new Both(build);
    List<Signal> signals = both.controllers().stream().flatMap(c -> c.signals().stream()).toList();
    Map<Unit, Boolean> approached = new java.util.HashMap<>();
    for (int i = 0; i < commands; i++) {
      Signal signal = signals.get(random.nextInt(signals.size()));
      int unit = random.nextInt(signal.units().size());
      Unit called = signal.units().get(unit);
      both.call(signal, unit, random.nextInt(called.kind().states().size()));
      both.go(1 + random.nextInt(200));
      if (random.nextInt(8) == 0) {
        both.turnNight();
      }
      if (called.kind().onApproach()) {
        boolean on = !approached.getOrDefault(called, true);
        approached.put(called, on);
        int box =
            (int)
                signal.units().subList(0, unit).stream().filter(u -> u.kind().onApproach()).count();
        both.approach(signal, unit, box, on);
      }
      both.go(1 + random.nextInt(900));
    }

    JsonNode seen = Browser.look("play", page(Pages.html(build)), Map.of("steps", both.steps));
    assertThat(texts(seen)).isEqualTo(both.expected);
  }

  @Test
  void it_breaks_no_rule_of_accessibility_and_asks_nothing_of_a_network() throws Exception {
    Build demo = Pages.built(Pages.DEMO, Pages::fromProject);
    assertThat(texts(Browser.look("audit", page(Pages.html(demo)), Map.of()))).isEmpty();
  }

  @Test
  void a_page_without_signals_breaks_none_either() throws Exception {
    Map<String, String> files =
        Map.of(
            "book.aspects",
            EVERY.files().get("book.aspects"),
            "layout.yaml",
            """
            layout: Bare Chain
            rulebook: book.aspects
            controllers: {west: {flash: 28672, ram: 1536, chains: {main: {signals: [{gap: 2}]}}}}
            """);
    Path page = page(Pages.html(Pages.built("layout.yaml", LayoutPageTest.reader(files))));
    assertThat(texts(Browser.look("audit", page, Map.of()))).isEmpty();
  }

  @Test
  void names_that_are_tags_or_turn_text_round_do_no_harm() throws Exception {
    Build build = Pages.built("layout.yaml", LayoutPageTest.reader(LayoutPageTest.HOSTILE));
    Path page = page(Pages.html(build));
    assertThat(texts(Browser.look("audit", page, Map.of()))).isEmpty();

    String script =
        """
        signals.forEach(choose);
        chosen.units[0].buttons[0].click();
        document.querySelector('#test').open = true;
        document.body.innerText + ' scripts ' + document.scripts.length
        """;
    List<String> said = texts(Browser.look("ask", page, Map.of("script", script)));
    assertThat(said).hasSize(1);
    assertThat(said.get(0)).contains("scripts 3", "<script>alert(3)</script>", "A\ud83d\ude82");
  }

  /** Names as long as anybody writes, with blanks and without, are no wider than any screen. */
  @Test
  void long_names_fit() throws Exception {
    String words = "Northbound home signal of the western approach by the old mill";
    String letters = "x".repeat(80);
    String layout =
        LayoutPageTest.HOSTILE
            .get("layout.yaml")
            .replace("<script>alert(3)</script>", words)
            .replace("A\\U0001f682", letters)
            .replace("<img src=x onerror=alert(2)>", letters);
    String book =
        LayoutPageTest.HOSTILE
            .get("book.aspects")
            .replace("<img src=x onerror=alert(5)>", letters)
            .replace("\"</script>\"", "\"" + words + "\"");
    assertThat(layout).contains(words, letters);
    Build build =
        Pages.built(
            "layout.yaml",
            LayoutPageTest.reader(Map.of("layout.yaml", layout, "book.aspects", book)));
    assertThat(texts(Browser.look("audit", page(Pages.html(build)), Map.of()))).isEmpty();
    String chart = AspectChart.html(Pages.layout(build).rulebook(), List.of());
    assertThat(texts(Browser.look("audit", page(chart), Map.of()))).isEmpty();
  }

  @Test
  void it_is_worked_with_keys_alone() throws Exception {
    Path page = page(Pages.html(Pages.built(Pages.DEMO, Pages::fromProject)));
    // Behind the bar of time: the first signal, and its neighbour.
    List<String> keys = new ArrayList<>(List.of("Tab", "Tab", "Tab", "ArrowRight", "Tab"));
    keys.addAll(List.of("Tab", "Tab", "Enter"));
    String where = "chosen.data.name + ' ' + clock.now + ' ' + document.activeElement.className";
    assertThat(texts(Browser.look("press", page, Map.of("keys", keys, "script", where))))
        .containsExactly("J2 10 signal");
  }

  @Test
  void what_a_throttle_sends_can_be_typed() throws Exception {
    Path page = page(Pages.html(Pages.built(Pages.DEMO, Pages::fromProject)));
    String script =
        """
        const type = (id, text) => { at(id).value = text; };
        const press = what => document.querySelector('#throttle [value="' + what + '"]').click();
        const shown = () => signals.map(s => s.says.textContent);
        const all = [];
        type('address', '2'); type('value', '10'); press('value');
        all.push(shown()[1] + ': ' + at('said').textContent);
        type('packet', '81 71 05 F5'); document.querySelector('#raw button').click();
        all.push(shown()[0] + ': ' + at('said').textContent);
        type('packet', '81 71 05 F4'); document.querySelector('#raw button').click();
        all.push(at('said').textContent);
        at('numbers').children[4].click();
        all.push(shown()[1] + ': ' + at('said').textContent);
        type('bus', '1'); at('bus').dispatchEvent(new Event('change'));
        type('topic', 'brackwater/signals/K1'); type('payload', 'Clear'); press('topic');
        all.push(signals.find(s => s.data.name === 'K1').says.textContent);
        type('bus', '2'); at('bus').dispatchEvent(new Event('change'));
        type('event', '05.01.01.01.42.00.01.0'); press('event');
        all.push(at('said').textContent);
        type('event', '05.01.01.01.42.00.01.00'); press('event');
        all.push(at('said').textContent);
        all.join('\\n')
        """;
    List<String> said = texts(Browser.look("ask", page, Map.of("script", script)));
    assertThat(said.get(0).lines())
        .containsExactly(
            "Approach: track, address 2 value 10 (81 73 0A F8): for one signal.",
            "Slow Clear: track, packet 81 71 05 F5: for one signal.",
            "The error byte does not fit: all bytes together give 00.",
            "Slow Approach: track, address 2 value 4 (81 73 04 F6): for one signal.",
            "Clear",
            "An event is eight pairs of hex digits, such as 05.01.01.01.42.00.01.00.",
            "can, event 05.01.01.01.42.00.01.00: for one signal.");
  }

  /** The packets that the page makes are those of package {@code bus}. */
  @Test
  void packets_of_every_address_are_those_of_the_compiler() throws Exception {
    Path page = page(Pages.html(Pages.built(Pages.DEMO, Pages::fromProject)));
    String script =
        """
        const all = [];
        for (let address = 1; address <= 2048; address++) {
          all.push(hexOf(accessoryPacket(0, address, false, address % 256)));
          all.push(hexOf(accessoryPacket(0, address, true, address % 2)));
        }
        all.join('\\n')
        """;
    List<String> expected = new ArrayList<>();
    for (int address = 1; address <= 2048; address++) {
      int binary = dev.doublet.bus.Accessory.binary(address, 1);
      expected.add(new Packet.ExtendedAccessory(binary, address % 256).hex());
      expected.add(new Packet.BasicAccessory(binary, address % 2, true).hex());
    }
    String made = texts(Browser.look("ask", page, Map.of("script", script))).get(0);
    assertThat(made.lines()).containsExactlyElementsOf(expected);
  }

  @Test
  void what_failed_is_dark_or_stuck_and_the_crew_reads_what_the_compiler_says() throws Exception {
    Path page = page(Pages.html(Pages.built(Pages.DEMO, Pages::fromProject)));
    String script =
        """
        const all = [];
        const call = (name, state) => {
          choose(signals.find(s => s.data.name === name));
          chosen.units[0].buttons[chosen.units[0].kind.states.findIndex(s => s.name === state)].click();
        };
        const break_ = words => {
          const choice = at('failed');
          choice.value = [...choice.options].find(o => o.textContent === words).value;
          choice.dispatchEvent(new Event('change'));
          all.push(chosen.data.name + ' ' + looks(chosen) + ': ' + at('reading').textContent);
        };
        const looks = signal => signal.units.flatMap(u => u.lamps).map(l => l.drawn).map(lamp =>
            (Number(lamp.getAttribute('fill-opacity')) > 0 ? 'lit' : 'dark') + (/^0+$/.test(lamp.dataset.bytes) ? '' : '*')).join(' ');
        call('J1', 'Clear');
        break_('the top head is dark');
        break_('LED 2 of 3 and all after it are dark');
        choose(signals[1]);
        all.push(chosen.data.name + ' ' + looks(chosen) + ': ' + at('reading').textContent);
        choose(signals[0]);
        break_('nothing');
        call('J2', 'Approach Limited');
        goOn(clock.now + 900);
        break_('the flasher of the middle head is stuck on');
        break_('the flasher of the middle head is stuck off');
        call('K1', 'Approach');
        break_('the number plate is missing');
        all.push(document.querySelectorAll('[data-plate][hidden]').length);
        call('H1', 'Approach');
        break_('the green die in the top head is dead');
        all.push(chosen.units[0].lamps[0].drawn.getAttribute('fill'));
        all.join('\\n')
        """;
    assertThat(texts(Browser.look("ask", page, Map.of("script", script))).get(0).lines())
        .containsExactly(
            "J1 dark* lit* lit*: The crew sees dark over red over red, and may read Stop."
                + NO_MORE,
            "J1 lit* dark* dark*: The crew sees green over dark over dark, and may read Stop."
                + NO_MORE,
            "J2 dark* dark* dark*: Dark, as the chain is broken at signal J1. The crew sees dark over"
                + " dark over dark, and may read Stop."
                + NO_MORE,
            "J1 lit* lit* lit*: ",
            "J2 lit* lit lit*: The crew sees yellow over green over red, and may read Approach"
                + " Medium."
                + NO_MORE,
            "J2 lit* dark lit*: The crew sees yellow over dark over red, and may read Stop."
                + NO_MORE,
            "K1 dark dark lit* dark: The crew sees yellow, and may read Approach." + NO_MORE,
            "1",
            "H1 lit* lit*: The crew sees red over red, and may read Stop." + NO_MORE,
            "rgb(255,0,56)");
  }

  @Test
  void a_dead_chip_darkens_its_lamps_alone_and_a_broken_chain_all_behind() throws Exception {
    Path page = page(Pages.html(Pages.built("examples/quarry/layout.yaml", Pages::fromProject)));
    String script =
        """
        const all = [], lit = () => signals.map(s => s.units[0].lamps.map(lamp => lamp.look && lamp.look.strength > 0 ? 'o' : '.').join('')).join(' ');
        signals.forEach(s => s.units[0].buttons || choose(s));
        signals.forEach(s => s.units[0].buttons[1].click());
        goOn(1000);
        all.push(lit());
        for (const words of ['the chip at LED 1 is dead', 'its chip is dark', 'lamp upper of the top head is stuck lit in green']) {
          fail(signals[0], LAYOUT.sites[signals[0].data.site].faults.find(fault => fault.words === words));
          choose(signals[0]);
          all.push(lit() + ' ' + at('reading').textContent);
        }
        all.join('\\n')
        """;
    assertThat(texts(Browser.look("ask", page, Map.of("script", script))).get(0).lines())
        .containsExactly(
            ".o. .o. o o",
            "... .o. o o The crew sees dark, and may read Stop." + NO_MORE,
            "... ... . . The crew sees dark, and may read Stop." + NO_MORE,
            "oo. .o. o o The crew sees green at upper with yellow at centre, and may read Stop."
                + NO_MORE);
  }

  /** Terminus has a vane, and lamps side by side; each is lit as its unit shows that colour. */
  @Test
  void what_is_stuck_shines_as_it_did_and_the_crew_reads_what_the_compiler_says() throws Exception {
    Path page = page(Pages.html(Pages.built("examples/terminus/layout.yaml", Pages::fromProject)));
    String script =
        """
        const all = [];
        const call = (name, state) => {
          choose(signals.find(s => s.data.name === name));
          chosen.units[0].buttons[chosen.units[0].kind.states.findIndex(s => s.name === state)].click();
          goOn(clock.now + 3000);
        };
        const colours = () => chosen.units.flatMap(u => u.lamps).map(l => l.drawn).map(lamp =>
            Number(lamp.getAttribute('fill-opacity')) > 0 ? lamp.getAttribute('fill') : 'dark').join(' ');
        const stick = words => {
          const choice = at('failed');
          choice.value = [...choice.options].find(o => o.textContent === words).value;
          choice.dispatchEvent(new Event('change'));
          return colours() + ': ' + at('reading').textContent;
        };
        const vane = signals.find(s => LAYOUT.sites[s.data.site].faults.some(f => f.how === 'VANE')).data.name;
        call(vane, 'Clear'); const green = colours();
        call(vane, 'Stop'); const red = colours();
        all.push(stick('the vane of the top head is stuck at green').replace(green, 'GREEN').replace(red, 'RED'));
        all.push(stick('the vane of the top head is stuck at red').replace(red, 'RED'));
        stick('nothing'); all.push(colours() === red);
        all.push(stick('the green die in the top head is stuck lit').replace(red, 'RED'));
        stick('nothing');
        const pair = signals.find(s => LAYOUT.sites[s.data.site].faults.some(f => f.how === 'LAMP'));
        choose(pair);
        for (const button of pair.units[0].buttons) {
          button.click(); goOn(clock.now + 3000);
          const before = colours().split(' ');
          LAYOUT.sites[pair.data.site].faults.filter(f => f.how === 'LAMP').forEach(fault => {
            stick(fault.words);
            const after = colours().split(' '), [led] = fault.leds;
            const reading = at('reading').textContent;
            if (after.some((colour, i) => i !== led && colour !== before[i])) all.push('another lamp changed: ' + fault.words);
            if (reading.startsWith('The crew sees') && (before[led] !== 'dark' || after[led] === 'dark')) all.push('not lit: ' + fault.words);
            stick('nothing');
            if (colours() !== before.join(' ')) all.push('not as before: ' + fault.words);
          });
        }
        all.join('\\n')
        """;
    assertThat(texts(Browser.look("ask", page, Map.of("script", script))).get(0).lines())
        .containsExactly(
            "GREEN: The crew sees green, and may read Clear. That permits more than was meant: a false"
                + " proceed. In practice it is covered: a contact proves the vane at red before the"
                + " block is given up.",
            "RED: Nothing is seen of it while this is shown.",
            "true",
            "rgb(255,232,127): The crew sees a light of no known colour, and may read Stop."
                + NO_MORE);
  }

  /** Its book has no rhythm, so that no lamp needs a period to be seen at its brightest. */
  @Test
  void an_arm_that_is_stuck_is_drawn_and_lit_where_it_stands() throws Exception {
    Path page = page(Pages.html(Pages.built("examples/sluice/layout.yaml", Pages::fromProject)));
    String script =
        """
        const all = [];
        choose(signals[0]);
        const call = name => {
          chosen.units[0].buttons[chosen.units[0].kind.states.findIndex(s => s.name === name)].click();
          goOn(clock.now + 3000);
        };
        const seen = () => [...chosen.button.querySelectorAll('[data-arm]')].map(arm =>
            /rotate\\((\\d+)/.exec(arm.getAttribute('transform'))[1]).join(' ') + ' ' +
            chosen.units[0].lamps.map(lamp => lamp.drawn.getAttribute('fill')).join(' ');
        call('Stop'); const [, , red, yellow] = seen().split(' ');
        call('Clear'); const [, , green] = seen().split(' ');
        const note = words => all.push(words + ': ' + seen().replaceAll(green, 'green').replace(red, 'red').replace(yellow, 'yellow'));
        note('nothing');
        for (const words of ['the arm of the home head is fallen to its safe side, level',
            'the arm of the distant head is fallen to its safe side, fishtail-level', 'nothing']) {
          const choice = at('failed');
          choice.value = [...choice.options].find(o => o.textContent === words).value;
          choice.dispatchEvent(new Event('change'));
          note(words);
        }
        all.join('\\n')
        """;
    assertThat(texts(Browser.look("ask", page, Map.of("script", script))).get(0).lines())
        .containsExactly(
            "nothing: 45 45 green green",
            "the arm of the home head is fallen to its safe side, level: 0 45 red green",
            "the arm of the distant head is fallen to its safe side, fishtail-level: 45 0 green"
                + " yellow",
            "nothing: 45 45 green green");
  }

  @ParameterizedTest
  @ValueSource(ints = {20, 60, 149, 150, 151, 180, 240, 299, 300})
  void no_lamp_flashes_more_than_three_times_in_any_second(int rate) throws Exception {
    Map<String, String> files = new TreeMap<>(EVERY.files());
    files.computeIfPresent(
        "book.aspects", (name, text) -> text.replace("flashing 300", "flashing " + rate));
    Build build = Pages.built(EVERY.root(), LayoutPageTest.reader(files));
    JsonNode seen = Browser.look("flashes", page(Pages.html(build)), Map.of("seconds", 6));
    assertThat(seen.get(0).asInt()).isBetween(1, 3);
    assertThat(seen.get(1).asDouble()).isEqualTo(Math.min(1, (60_000 + rate / 2) / rate / 400.0));
  }

  /** What is copied as a test passes in C, with the header that is built. */
  @Test
  void what_was_sent_passes_as_a_test_in_c() throws Exception {
    assumeTrue(
        Files.isExecutable(Path.of("/usr/bin/gcc")),
        "gcc is not installed, so no test in C is run");
    Build build = Pages.built(EVERY.root(), EVERY.reader());
    String script =
        """
        for (let i = 0; i < 200; i++) {
          const signal = signals[7 * i % signals.length];
          choose(signal);
          const unit = signal.units[0], state = (i + Math.floor(i / 8)) % unit.kind.states.length;
          if (!unit.buttons[state].disabled) unit.buttons[state].click();
          if (i % 9 === 0) document.querySelector('#night').click();
          const box = document.querySelector('#chosen input[type=checkbox]');
          if (box && i % 3 === 0) box.click();
          goOn(clock.now + 150 + 37 * i % 400);
        }
        goOn(clock.now + 1500);
        tellAspects();
        testInC()
        """;
    String test =
        texts(Browser.look("ask", page(Pages.html(build)), Map.of("script", script))).get(0);
    assertThat(test).contains("doublet_topic(", "doublet_event(", "doublet_set_approach(");
    for (String part : test.split("(?=/\\* Controller )")) {
      String name = part.substring("/* Controller ".length(), part.indexOf(" */"));
      for (var file : build.files().entrySet()) {
        Files.write(folder.resolve(file.getKey()), file.getValue());
      }
      String program =
          """
          #include <assert.h>
          #define DOUBLET_FADES
          #include "doublet_reader.h"
          #include "NAME.h"
          int main(void) {
          static uint8_t state[PREFIX_STATE_BYTES];
          struct doublet signals;
          assert(doublet_open(&signals, NAME_table, sizeof NAME_table, state, sizeof state) == DOUBLET_OK);
          TEST
          return 0;
          }
          """
              .replace("NAME", name)
              .replace("PREFIX", Controller.prefix(name))
              .replace("TEST", part);
      Files.writeString(folder.resolve("test.c"), program);
      run("gcc", "-std=c99", "-Wall", "-Werror", "-o", "test", "test.c");
      run("./test");
    }
  }

  private void run(String... command) throws IOException, InterruptedException {
    Process process =
        new ProcessBuilder(command)
            .directory(folder.toFile())
            .redirectErrorStream(true)
            .redirectOutput(folder.resolve("output").toFile())
            .start();
    assertThat(process.waitFor()).as(Files.readString(folder.resolve("output"))).isZero();
  }

  /** The demo fades and does not settle; the other layout does both. */
  @ParameterizedTest
  @ValueSource(booleans = {false, true})
  void time_goes_back_to_what_was_shown_then(boolean settles) throws Exception {
    Build build =
        settles
            ? Pages.built(EVERY.root(), EVERY.reader())
            : Pages.built(Pages.DEMO, Pages::fromProject);
    Path page = page(Pages.html(build));
    String script =
        """
        const lamps = () => [...document.querySelectorAll('.lamp')].map(l => l.dataset.bytes).join('');
        const seen = [], wanted = [];
        for (let i = 0; i < 40; i++) {
          const unit = signals[7 * i % signals.length].units[0];
          unit.data.calls[i % unit.data.calls.length].forEach(call => send(message(unit.data.bus, call)));
          for (let step = 0; step < (i % 5 ? 40 : 200); step++) goOn(clock.now + 16);
          wanted.push([clock.now, lamps()]);
          goOn(clock.now + 16);
        }
        const different = wanted.reverse().filter(([time, then]) => { goTo(time); return lamps() !== then; });
        different.map(([time]) => time).join(' ')
        """;
    assertThat(texts(Browser.look("ask", page, Map.of("script", script)))).containsExactly("");
  }

  /** Some settle and some fade; a leap goes past the end of both. */
  @Test
  void after_a_leap_of_time_words_are_those_of_the_reader() throws Exception {
    Path page = page(Pages.html(Pages.built(EVERY.root(), EVERY.reader())));
    String script =
        """
        const wrong = [];
        let moved = 0;
        for (const leap of [1701, 60000]) {
          for (const signal of signals) {
            choose(signal);
            const unit = signal.units[0], before = unit.state;
            unit.buttons.find((b, i) => !b.disabled && unit.kind.states[i] !== before).click();
            goOn(clock.now + leap);
            const state = unit.kind.states.find(s =>
                s.number === signal.controller.reader.c.aspect(signal.controller.units.indexOf(unit), clock.now));
            if (state !== before) moved++;
            for (const words of [signal.says.textContent, at('shows').textContent]) {
              if (!words.includes(state.name)) wrong.push(`${signal.data.name}: ${words}`);
            }
          }
        }
        moved === 2 * signals.length ? wrong.join(', ') : `only ${moved} moved`
        """;
    assertThat(texts(Browser.look("ask", page, Map.of("script", script)))).containsExactly("");
  }

  @Test
  void night_and_trains_that_approach_are_of_their_time() throws Exception {
    Path page = page(Pages.html(Pages.built(EVERY.root(), EVERY.reader())));
    String script =
        """
        choose(signals.find(s => s.data.name === 'T1'));
        const box = document.querySelector('#chosen input[type=checkbox]');
        const all = [];
        const note = () => all.push(at('night').checked + ' ' + box.checked + ' ' + sent.length);
        goOn(1000); at('night').click(); goOn(2000); box.click(); goOn(3000);
        note();
        goTo(1500); note();
        goTo(500); note();
        goTo(3000); note();
        goTo(1500); box.click(); note();
        at('forget').click(); note();
        all.join(', ')
        """;
    assertThat(texts(Browser.look("ask", page, Map.of("script", script))))
        .containsExactly(
            "true false 2, true true 2, false true 2, true false 2, true false 2, false true 0");
  }

  @Test
  void another_table_is_opened_and_a_damaged_one_refused_with_the_reason() throws Exception {
    Build build = Pages.built(Pages.DEMO, Pages::fromProject);
    byte[] table = build.files().get("bank.bin");
    byte[] damaged = table.clone();
    damaged[table.length / 2] ^= 1;
    byte[] others = Pages.built(EVERY.root(), EVERY.reader()).files().get("west.bin");
    List<Map<String, String>> files =
        List.of(
            file("bank.bin", table),
            file("bank.bin", damaged),
            file("bank.bin", java.util.Arrays.copyOf(table, table.length - 1)),
            file("bank.bin", new byte[70_000]),
            file("west.bin", others));
    assertThat(texts(Browser.look("tables", page(Pages.html(build)), Map.of("files", files))))
        .containsExactly(
            "bank.bin now runs on controller bank.",
            "bank.bin is refused: damaged: the checksum does not fit. The table before it is kept.",
            "bank.bin is refused: cut short, or followed by more. The table before it is kept.",
            "bank.bin is refused: not a table: other first bytes. The table before it is kept.",
            "west.bin is sound, but for other signals than those of this page.");
  }

  /** Lamps of one driver chip flash each by itself too. */
  @ParameterizedTest
  @ValueSource(strings = {"", ", chip: tri, outputs: [[none, right, left]]"})
  void of_two_flashers_of_a_head_the_one_that_fails_stands_still(String fed) throws Exception {
    Map<String, String> files =
        Map.of(
            "layout.yaml",
            """
            layout: Crossing
            rulebook: book.aspects
            otherwise: most-restrictive
            chips: {tri: {}}
            kinds: {post: {form: post, heads: [pair], by: aspect-number@fed}}
            controllers:
              west:
                flash: 28672
                ram: 1536
                chains: {main: {signals: [{name: X1, kind: post}]}}
            """
                .replace("@fed", fed),
            "book.aspects",
            """
            rulebook "Crossing" edition 1
            speeds in mph { slow 20 }
            colours { red }
            rhythms { one 60 per minute  other 30 per minute starting dark }
            head pair {
              lamp left, right shows red
              figure both lights left, right
              figure seesaw lights one left, other right
            }
            form post { top }
            imperfect signals read as most restrictive
            aspect "Stop"  { number 0  allows stop  on post show both }
            aspect "Going" { number 1  allows slow  on post show seesaw }
            """);
    String script =
        """
        choose(signals[0]); chosen.units[0].buttons[1].click();
        const all = [];
        for (const fault of LAYOUT.sites[0].faults.filter(f => f.words.includes('flasher'))) {
          fail(signals[0], fault);
          const seen = new Set();
          for (let i = 0; i < 40; i++) {
            goOn(clock.now + 100);
            seen.add(chosen.units[0].lamps.map(l => +l.drawn.getAttribute('fill-opacity') > 0.5 ? 'o' : '.').join(''));
          }
          const rings = chosen.units[0].lamps.map(l => l.ring).map(r => r.hasAttribute('hidden') ? '-' : 'r').join('');
          all.push(`${fault.words}: ${[...seen].sort().join(' ')} ${rings}`);
        }
        all.sort().join('\\n')
        """;
    Path page = page(Pages.html(Pages.built("layout.yaml", LayoutPageTest.reader(files))));
    assertThat(texts(Browser.look("ask", page, Map.of("script", script))))
        .containsExactly(
            "the flasher of the top head is stuck off (one): .. .o -r\n"
                + "the flasher of the top head is stuck off (other): .. o. r-\n"
                + "the flasher of the top head is stuck on (one): o. oo -r\n"
                + "the flasher of the top head is stuck on (other): .o oo r-");
  }

  /** What is typed, arrives or is dropped is shown as the compiler shows what strangers wrote. */
  @Test
  void what_strangers_write_is_shown_as_the_compiler_shows_it() throws Exception {
    String script =
        """
        const all = [];
        for (let c = 0; c < 0x20000; c++) {
          if ((c < 0xd800 || c > 0xdfff) && visible(String.fromCodePoint(c)) !== String.fromCodePoint(c)) all.push(visible(String.fromCodePoint(c)));
        }
        at('bus').value = '1'; chooseBus();
        at('topic').value = 'x\\u202ey'; at('payload').value = '*\\u0085/'; document.querySelector('#throttle [value=topic]').click();
        openTable({name: 'a\\u200fb.bin', arrayBuffer: () => Promise.resolve(new ArrayBuffer(3))})
            .then(() => [...all, at('said').textContent, testInC(), at('opened').textContent].join('\\n'))
        """;
    Path page = page(Pages.html(Pages.built(Pages.DEMO, Pages::fromProject)));
    List<String> seen =
        texts(Browser.look("ask", page, Map.of("script", script))).get(0).lines().toList();
    List<String> hidden =
        java.util.stream.IntStream.range(0, 0x20000)
            .filter(c -> Visible.isHidden(c) && !(c >= 0xD800 && c <= 0xDFFF))
            .mapToObj(Visible::number)
            .toList();
    assertThat(seen.subList(0, hidden.size())).isEqualTo(hidden);
    assertThat(String.join("\n", seen.subList(hidden.size(), seen.size())))
        .contains("x<U+202E>y: *<U+0085>/", "a<U+200F>b.bin is refused: too few bytes for a table")
        .doesNotContain("\u202e", "\u0085", "\u200f");
  }

  /** As of a folder, which browsers hand over like a file. */
  @Test
  void what_cannot_be_read_is_refused_too() throws Exception {
    String script =
        """
        openTable({name: 'old', arrayBuffer: () => Promise.reject(new Error('a folder'))})
            .then(() => at('opened').textContent)
        """;
    Path page = page(Pages.html(Pages.built(Pages.DEMO, Pages::fromProject)));
    assertThat(texts(Browser.look("ask", page, Map.of("script", script))))
        .containsExactly("old cannot be read. The table before it is kept.");
  }

  private static Map<String, String> file(String name, byte[] bytes) {
    return Map.of("name", name, "hex", HexFormat.of().formatHex(bytes));
  }

  private Path page(String html) throws IOException {
    return Files.writeString(folder.resolve("layout.html"), html);
  }

  private static List<String> texts(JsonNode list) {
    return StreamSupport.stream(list.spliterator(), false).map(JsonNode::asText).toList();
  }
}
