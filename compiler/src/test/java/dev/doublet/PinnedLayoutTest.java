package dev.doublet;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.chart.Answers;
import dev.doublet.chart.AnswersText;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.golden.Case;
import dev.doublet.layout.Layout;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

/** What is pinned is what there was, and stays. */
class PinnedLayoutTest {
  private static final int LAYOUTS = 240;

  @Test
  void a_pinned_layout_gives_the_same_tables_and_answers_and_keeps_them() throws Exception {
    Random random = new Random(20260214);
    int sound = 0;
    int built = 0;
    TreeSet<String> ways = new TreeSet<>();
    for (int i = 0; i < LAYOUTS; i++) {
      boolean numbers = random.nextInt(3) > 0;
      String book = numbers ? RandomYard.BOOK : RandomYard.UNNUMBERED;
      String text = RandomYard.of(random, numbers);
      Outcome<Layout> read = read(book, text);
      if (read.hasErrors()) {
        continue;
      }
      sound++;
      Answers before = Answers.of(read.value().orElseThrow());
      before.heard().forEach(h -> ways.add(h.unit().kind().way().word()));
      String pinned = pin(book, text);
      assertThat(answers(book, pinned)).as(text).isEqualTo(AnswersText.of(before));
      assertThat(isOnlyMore(text.replace("numbering: automatic", "numbering: pinned"), pinned))
          .as(pinned)
          .isTrue();
      assertThat(pin(book, pinned)).isEqualTo(pinned);
      if (sound % 6 == 0) {
        built += sameTables(book, text, pinned) ? 1 : 0;
      }
      keeps(before, longer(book), pinned);
      String more = withSignal(pinned);
      assertThat(read(book, more).diagnostics())
          .extracting(Diagnostic::name)
          .containsOnly("unpinned-number");
      String all = pin(book, more);
      keeps(before, book, all);
      assertThat(read(book, all).diagnostics()).isEmpty();
      assertThat(clashes(read(book, all))).as(all).isEqualTo(clashes(read));
    }
    assertThat(sound).isGreaterThan(LAYOUTS / 3);
    assertThat(built).isGreaterThan(5);
    assertThat(ways)
        .containsExactly("aspect-number", "binary-coded", "event", "one-per-output", "topic");
  }

  private static boolean sameTables(String book, String before, String after) {
    Build build = Compiler.build("layout.yaml", reader(book, before));
    Build again = Compiler.build("layout.yaml", reader(book, after));
    assertThat(again.files().keySet()).as(after).isEqualTo(build.files().keySet());
    build.files().forEach((name, bytes) -> assertThat(again.files().get(name)).isEqualTo(bytes));
    return !build.files().isEmpty();
  }

  /** How many addresses several units take. */
  private static long clashes(Outcome<Layout> read) {
    Map<Integer, Integer> taken = new HashMap<>();
    read.value().orElseThrow().controllers().stream()
        .flatMap(c -> c.units().stream())
        .flatMap(u -> u.command().addresses().stream())
        .forEach(a -> taken.merge(a, 1, Integer::sum));
    return taken.values().stream().filter(n -> n > 1).count();
  }

  /** Every command of before calls up what it did, whatever else is called up now. */
  private static void keeps(Answers before, String book, String layout) {
    Map<String, Answers.Heard> now = new HashMap<>();
    Outcome<Layout> read = read(book, layout);
    assertThat(read.hasErrors()).as(read.diagnostics() + "\n" + layout).isFalse();
    Answers.of(read.value().orElseThrow()).heard().forEach(h -> now.put(h.unit().name(), h));
    for (Answers.Heard heard : before.heard()) {
      Map<List<Answers.Sent>, String> calls = new HashMap<>();
      now.get(heard.unit().name()).called().forEach(c -> calls.put(c.sent(), c.state().name()));
      for (Answers.Called called : heard.called()) {
        assertThat(calls.get(called.sent()))
            .as("%s of %s\n%s", called.sent(), heard.unit().name(), layout)
            .isEqualTo(called.state().name());
      }
    }
  }

  @Test
  void every_way_of_commanding_is_pinned_as_its_page_shows() throws Exception {
    Path page = Path.of("src/test/resources/cases/pin/modes.md");
    Case modes = Case.of(page);
    PinnedLayout pinned = PinnedLayout.of(modes.root(), modes.reader());
    modes.verify(pinned.after().orElseThrow().text());
    assertThat(pinned.addresses()).isGreaterThan(5);
    assertThat(pinned.values()).isGreaterThan(10);
  }

  @Test
  void signals_written_as_one_are_pinned_by_one_address() throws Exception {
    Case page = Case.of(Path.of("src/test/resources/cases/pin/signals-in-one-line.md"));
    String book = page.files().get("book.aspects");
    String before = page.files().get("layout.yaml");
    PinnedLayout pinned = PinnedLayout.of(page.root(), page.reader());
    String after = pinned.after().orElseThrow().text();
    page.verify(after);
    assertThat(pinned.addresses()).isEqualTo(4 + 3 + 2 * 2 + 2);
    assertThat(sameTables(book, before, after)).isTrue();
    Answers was = Answers.of(read(book, before).value().orElseThrow());
    keeps(was, book, after);
    String shorter = after.replace("J1 to J4", "J1 to J3");
    assertThat(addresses(Answers.of(read(book, shorter).value().orElseThrow()), "After"))
        .isEqualTo(addresses(was, "After"))
        .containsExactly(12, 13);
    String lacking = after.replace(", address: 5", "");
    assertThat(lacking).isNotEqualTo(after);
    assertThat(read(book, lacking).value().orElseThrow().controllers().get(0).signals())
        .hasSize(4 + 2 + 1 + 2);
  }

  private static List<Integer> addresses(Answers answers, String signal) {
    return answers.ofSignal(signal).heard().get(0).unit().command().addresses();
  }

  /** With an aspect that is first in the alphabet, has the lowest free number and permits most. */
  private static String longer(String book) {
    String number = book.contains("number 9") ? "number 3  " : "";
    return book
        + "aspect \"Aaa\" { "
        + number
        + "allows normal then medium  on one-head show flashing green"
        + "  on two-head show flashing green over red }\n";
  }

  /** With a signal before all others. */
  private static String withSignal(String layout) {
    String signal =
        "signals:\n        - {name: First, form: one-head, heads: [plain], by: binary-coded}\n"
            + "        - {name: Second, form: two-head, heads: [{type: plain, shows: [red, green],"
            + " by: binary-coded}, {type: plain, shows: [red, green], by: aspect-number}]}\n";
    // What followed nothing may have followed the signal before it in another way.
    return layout.replaceFirst(
        "signals:[^\n]*\n", java.util.regex.Matcher.quoteReplacement(signal));
  }

  /** True when characters were added, and none was taken away. */
  private static boolean isOnlyMore(String before, String after) {
    int at = 0;
    for (int i = 0; i < after.length() && at < before.length(); i++) {
      at += after.charAt(i) == before.charAt(at) ? 1 : 0;
    }
    return at == before.length();
  }

  private static String pin(String book, String layout) throws Exception {
    PinnedLayout pinned = PinnedLayout.of("layout.yaml", reader(book, layout));
    assertThat(pinned.after()).as("%s\n%s", pinned.said(), layout).isPresent();
    return pinned.after().get().text();
  }

  private static String answers(String book, String layout) {
    Outcome<Layout> read = read(book, layout);
    assertThat(read.hasErrors()).as("%s\n%s", read.diagnostics(), layout).isFalse();
    return AnswersText.of(Answers.of(read.value().orElseThrow()));
  }

  private static Outcome<Layout> read(String book, String layout) {
    return LayoutResolver.resolve("layout.yaml", reader(book, layout));
  }

  private static SourceReader reader(String book, String layout) {
    return path -> new SourceFile(path, path.equals("layout.yaml") ? layout : book);
  }
}
