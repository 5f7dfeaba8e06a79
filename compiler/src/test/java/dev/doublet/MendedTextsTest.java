package dev.doublet;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Edits;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.facts.CheckOptions;
import dev.doublet.golden.Case;
import dev.doublet.golden.Misspelt;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** What has one sure mend is mended, and nothing is made worse by it. */
class MendedTextsTest {
  private static final Path PAGES = Path.of("src/main/java");
  private static final Path CASES = Path.of("src/test/resources/cases");

  /** Every sample of a mistake there is: of each page and of each golden case. */
  static List<Case> samples() throws Exception {
    List<Case> samples = new ArrayList<>();
    for (Path page : Case.pages(PAGES)) {
      if (Files.readAllLines(page).contains("## Bad")) {
        samples.add(Case.section(page, "Bad"));
      }
    }
    Case.pages(CASES).stream()
        .map(Case::of)
        .filter(c -> !c.files().isEmpty())
        .forEach(samples::add);
    return samples;
  }

  @Test
  void no_mend_makes_an_error_and_what_it_mends_is_gone() throws Exception {
    int mends = 0;
    int shown = 0;
    for (Case sample : samples()) {
      List<Diagnostic> before = check(sample.root(), sample.reader());
      MendedTexts<List<Diagnostic>> mended = mend(sample);
      List<Diagnostic> after = mended.left();
      mends += mended.done().size();
      assertThat(mended.done().isEmpty()).isEqualTo(mended.texts().isEmpty());
      assertThat(mended.done()).as(text(sample)).allMatch(d -> Edits.sure(d).isPresent());
      // Nothing that was mended is said again.
      assertThat(after).as(text(sample)).noneMatch(d -> keys(mended.done()).contains(key(d)));
      // An error is new only where an earlier one kept its check from running.
      Tier deepest =
          mended.done().stream()
              .map(Diagnostic::tier)
              .max(Comparator.naturalOrder())
              .orElse(Tier.MEANING);
      Set<String> known = keys(before);
      for (Diagnostic one : after) {
        if (one.severity() == Severity.ERROR && !known.contains(key(one))) {
          assertThat(mended.done()).as(key(one)).isNotEmpty();
          boolean hidden =
              one.tier().compareTo(deepest) > 0
                  || mended.done().stream().anyMatch(d -> d.tier() == Tier.SYNTAX);
          assertThat(hidden).as("%s\n%s", key(one), text(sample)).isTrue();
          shown++;
        }
      }
      // Once more changes nothing.
      assertThat(mend(texts(sample, mended), sample).texts()).as(text(sample)).isEmpty();
    }
    assertThat(mends).isGreaterThan(100);
    // Six by hand: twins of figures, a bus that is missing and a far LED behind misspelt names, and
    // an
    // arm of one position behind a comma.
    assertThat(shown).isLessThan(7);
  }

  @Test
  void every_comment_is_kept() throws Exception {
    for (Case sample : samples()) {
      mend(sample)
          .texts()
          .forEach(
              (before, after) ->
                  assertThat(comments(after.text()))
                      .as(text(sample))
                      .containsAll(comments(before.text())));
    }
  }

  @Test
  void a_mend_that_makes_an_error_is_not_made_and_the_others_are() {
    MendedTexts<List<Diagnostic>> mended =
        MendedTexts.of(Misspelt::read, r -> check("layout.yaml", r), all -> all);
    assertThat(mended.done()).extracting(Diagnostic::name).containsExactly("unknown-key");
    assertThat(mended.texts().values())
        .extracting(SourceFile::text)
        .containsExactly(Misspelt.read("layout.yaml").text().replace("scael", "scale"));
    assertThat(keys(mended.left()))
        .contains("layout.yaml: unknown-name: no aspect is called \"Claer\"");
  }

  /** The error stands at the second value, behind the word that would have changed. */
  @Test
  void a_fact_is_not_said_twice_by_a_mend() {
    String book =
        """
        rulebook "Brackwater & Northern"
        colours { red }
        form one-head { top }
        aspect "Stop" { number 0  numbr 4  allows stop  on one-head show red }
        """;
    MendedTexts<List<Diagnostic>> mended =
        MendedTexts.of(
            path -> new SourceFile(path, book), r -> check("book.aspects", r), all -> all);
    assertThat(mended.texts()).isEmpty();
    assertThat(mended.left()).extracting(Diagnostic::name).contains("syntax");
  }

  private static List<String> comments(String text) {
    return Pattern.compile("(?m)(?<=^|\\s)#.*$")
        .matcher(text)
        .results()
        .map(m -> m.group().strip())
        .toList();
  }

  private static MendedTexts<List<Diagnostic>> mend(Case sample) {
    return mend(sample.reader(), sample);
  }

  private static MendedTexts<List<Diagnostic>> mend(SourceReader reader, Case sample) {
    return MendedTexts.of(reader, r -> check(sample.root(), r), said -> said);
  }

  private static SourceReader texts(Case sample, MendedTexts<?> mended) {
    return path ->
        mended.texts().values().stream()
            .filter(f -> f.name().equals(path))
            .map(f -> new SourceFile(path, f.text()))
            .findFirst()
            .orElse(sample.reader().read(path));
  }

  private static List<Diagnostic> check(String root, SourceReader reader) {
    return (root.endsWith(".yaml")
            ? Compiler.checkLayout(root, reader, CheckOptions.ALL)
            : Compiler.checkRulebook(root, reader, CheckOptions.ALL))
        .diagnostics();
  }

  private static Set<String> keys(List<Diagnostic> all) {
    return all.stream().map(MendedTextsTest::key).collect(Collectors.toSet());
  }

  private static String key(Diagnostic one) {
    return one.primary().span().file().name() + ": " + one.name() + ": " + one.message();
  }

  private static String text(Case sample) {
    return String.join("\n", sample.files().values());
  }
}
