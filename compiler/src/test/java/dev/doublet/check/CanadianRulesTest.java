package dev.doublet.check;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.Compiler;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.facts.CheckOptions;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Reading;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.function.Predicate;
import org.junit.jupiter.api.Test;

/**
 * Canadian Rail Operating Rules 405 to 440 (Transport Canada TC O-0-93), as two crew study decks
 * quote them; the row's mark and source say which. Checked against 49 CFR 236.23(c): one picture,
 * one name. The book of rulebooks/canada.aspects, written by hand, is held against the same rows.
 */
class CanadianRulesTest {
  record Row(
      String rule,
      String name,
      String here,
      String next,
      int ahead,
      int heads,
      String mount,
      String pattern,
      String plate,
      String mark) {

    /** The aspect and everything that a crew reads it from. */
    String words() {
      String form = CanadianRulesTest.form(this, true).split(" ")[0];
      return rule + " " + name + ": " + form + " " + plates() + " " + display(pattern);
    }

    List<String> plates() {
      return plate.isEmpty() ? List.of() : List.of(plate);
    }
  }

  private static final Path BOOK = Path.of("../rulebooks/canada.aspects");

  @Test
  void no_two_of_the_good_rows_look_alike() throws IOException {
    assertThat(twins(book(goodRows(), true))).isEmpty();
  }

  /** With the disputed green of Rule 431 on a dwarf, as the rows were first counted. */
  @Test
  void with_the_mount_dropped_exactly_three_pictures_clash() throws IOException {
    List<Row> rows = new ArrayList<>(goodRows());
    rows.addAll(rows(cells -> cells[0].equals("431") && cells[9].contains("disputed")));
    List<String> shared = new ArrayList<>();
    for (Diagnostic twin : twins(book(rows, false))) {
      shared.add(
          twin.facts().get(0).value() + ": " + twin.message().replaceAll(" look alike.*", ""));
    }
    assertThat(shared)
        .containsExactlyInAnyOrder(
            "green: \"405 Clear\" and \"431 Slow to Clear\"",
            "red over red: \"437 Stop and Proceed\" and \"439 Stop\"",
            "red: \"437 Stop and Proceed\" and \"439 Stop\"");
  }

  @Test
  void the_published_book_means_by_every_good_row_what_the_source_does() throws IOException {
    Rulebook book = published().value().orElseThrow();
    for (Row row : goodRows()) {
      Form form = book.form(form(row, true).split(" ")[0]).orElseThrow();
      List<Display> picture =
          Arrays.stream(display(row.pattern()).split(" over "))
              .map(CanadianRulesTest::shown)
              .toList();
      assertThat(Reading.of(book, form, row.plates(), picture))
          .as(row.words())
          .extracting(r -> r.aspect().rule() + " " + r.aspect().name())
          .containsExactly(row.rule() + " " + row.name());
      Aspect aspect = book.aspect(row.name()).orElseThrow();
      assertThat(aspect.permission().words()).as(row.words()).isEqualTo(allows(row));
    }
  }

  @Test
  void the_published_book_has_the_good_rows_and_no_others() throws IOException {
    assertThat(written(published().value().orElseThrow()).keySet())
        .containsExactlyInAnyOrderElementsOf(goodRows().stream().map(Row::words).toList());
  }

  @Test
  void every_line_of_the_published_book_says_where_it_was_read() throws IOException {
    Map<String, Pattern> written = written(published().value().orElseThrow());
    for (Row row : goodRows()) {
      Span span = written.get(row.words()).span();
      String comment = span.file().line(span.from().line()).replaceFirst("[^#]*#", "");
      String form = form(row, true).split(" ")[0];
      boolean several = comment.contains(" on ");
      assertThat(comment)
          .as(row.words())
          .contains(several ? row.mark() + " on " + form : row.mark());
    }
  }

  @Test
  void the_published_book_is_at_most_four_lines_an_aspect() throws IOException {
    Rulebook book = published().value().orElseThrow();
    List<String> lines = Files.readAllLines(BOOK);
    int first = lines.indexOf(lines.stream().filter(l -> l.startsWith("aspect")).findFirst().get());
    int last = lines.lastIndexOf("}");
    assertThat(last + 1 - first).isLessThanOrEqualTo(4 * book.aspects().size());
  }

  @Test
  void only_flashing_tells_apart_the_pairs_that_follow_from_the_rows() throws IOException {
    List<Row> rows = goodRows();
    TreeSet<String> pairs = new TreeSet<>();
    for (Row one : rows) {
      for (Row other : rows) {
        boolean alike =
            form(one, true).equals(form(other, true))
                && one.plate().equals(other.plate())
                && one.pattern().replace("F", "").equals(other.pattern().replace("F", ""));
        if (alike && one.name().compareTo(other.name()) < 0) {
          pairs.add(one.name() + ", " + other.name() + ", " + form(one, true).split(" ")[0]);
        }
      }
    }
    TreeSet<String> found = new TreeSet<>();
    for (Diagnostic said : published().diagnostics()) {
      if (!said.name().equals("flash-only-difference")) {
        continue;
      }
      String[] quoted = said.message().split("\"");
      String form = said.message().replaceFirst(".* on form ", "");
      for (int i = 1; i < quoted.length; i += 2) {
        for (int k = 1; k < quoted.length; k += 2) {
          if (quoted[i].compareTo(quoted[k]) < 0) {
            found.add(quoted[i] + ", " + quoted[k] + ", " + form);
          }
        }
      }
    }
    assertThat(found).isEqualTo(pairs);
  }

  private static Display shown(String words) {
    String[] parts = words.split(" ");
    return new Display(parts[parts.length - 1], parts.length == 1 ? "" : parts[0]);
  }

  private static Compiler.Checked<Rulebook> published() throws IOException {
    String text = Files.readString(BOOK);
    return Compiler.checkRulebook(
        "canada.aspects", path -> new SourceFile(path, text), CheckOptions.ALL);
  }

  private static Map<String, Pattern> written(Rulebook book) {
    Map<String, Pattern> written = new LinkedHashMap<>();
    for (Aspect aspect : book.aspects()) {
      for (Pattern pattern : aspect.patterns()) {
        String words =
            aspect.rule()
                + " "
                + aspect.name()
                + ": "
                + pattern.form().name()
                + " "
                + pattern.plates()
                + " "
                + pattern.words();
        assertThat(written.put(words, pattern)).as(words).isNull();
      }
    }
    return written;
  }

  private static List<Diagnostic> twins(String book) {
    Compiler.Checked<?> checked =
        Compiler.checkRulebook(
            "cror.aspects", path -> new SourceFile(path, book), CheckOptions.ALL);
    assertThat(checked.value()).as(checked.diagnostics().toString()).isPresent();
    return checked.diagnostics().stream().filter(d -> d.name().equals("twin-aspects")).toList();
  }

  static List<Row> goodRows() throws IOException {
    List<Row> good =
        rows(
            cells ->
                !cells[9].contains("disputed")
                    && !cells[9].contains("suspect")
                    && !cells[5].equals("0"));
    assertThat(good).hasSize(78);
    return good;
  }

  private static List<Row> rows(Predicate<String[]> which) throws IOException {
    List<Row> rows = new ArrayList<>();
    List<String> lines = Files.readAllLines(Path.of("src/test/resources/facts/cror.csv"));
    for (String line : lines.subList(1, lines.size())) {
      String[] cells = line.split(",(?=(?:[^\"]*\"[^\"]*\")*[^\"]*$)");
      if (which.test(cells)) {
        rows.add(
            new Row(
                cells[0],
                cells[1],
                cells[2],
                cells[3],
                Integer.parseInt(cells[4]),
                Integer.parseInt(cells[5]),
                cells[6],
                cells[7],
                cells[8],
                cells[9]));
      }
    }
    return rows;
  }

  static String book(List<Row> rows, boolean withMount) {
    StringBuilder book = new StringBuilder();
    book.append("rulebook \"CROR\"\nspeeds in mph { track maximum limited 45 medium 30 ");
    book.append("diverging 25 slow 15 restricted 15 on sight diverging-reduced 25 on sight ");
    book.append("special-instructions unranked }\n");
    book.append("colours { red yellow green }\nrhythms { flashing 60 per minute }\n");
    book.append("plate L, DV, R\n");
    TreeSet<String> forms = new TreeSet<>();
    rows.forEach(r -> forms.add(form(r, withMount)));
    forms.forEach(f -> book.append("form ").append(f).append('\n'));
    Map<String, List<Row>> aspects = new LinkedHashMap<>();
    rows.forEach(r -> aspects.computeIfAbsent(r.rule(), k -> new ArrayList<>()).add(r));
    aspects.forEach((rule, its) -> append(book, its, withMount));
    return book.toString();
  }

  private static void append(StringBuilder book, List<Row> its, boolean withMount) {
    Row first = its.get(0);
    book.append("aspect \"").append(first.rule()).append(' ').append(first.name()).append("\" {\n");
    book.append("  rule ").append(first.rule()).append("  allows ").append(allows(first));
    book.append('\n');
    for (Row row : its) {
      book.append("  on ").append(form(row, withMount).split(" ")[0]);
      book.append(row.plate().isEmpty() ? "" : " with " + row.plate() + " plate");
      book.append(" show ").append(display(row.pattern())).append('\n');
    }
    book.append("}\n");
  }

  private static String allows(Row row) {
    if (row.here().equals("stop")) {
      return "stop";
    }
    if (row.here().equals("stop-then-restricted")) {
      return "stop, then restricted";
    }
    String here = row.here().startsWith("diverging 25 on sight") ? "diverging-reduced" : row.here();
    return row.next().equals("unspecified")
        ? here
        : here + " then " + row.next() + (row.ahead() == 2 ? " at the second signal" : "");
  }

  private static String form(Row row, boolean withMount) {
    String places =
        " { " + "top middle bottom".substring(0, new int[] {0, 3, 10, 17}[row.heads()]) + " }";
    if (!withMount) {
      return "heads-" + row.heads() + places;
    }
    return switch (row.mount()) {
      case "dwarf" -> "dwarf-" + row.heads() + " dwarf" + places;
      case "mast-staggered", "staggered" -> "staggered-" + row.heads() + " staggered" + places;
      // Where the deck does not say how the heads stand, rule 437 on one head is told from rule 439
      // by being another kind of mast.
      case "unstated" -> "unstated-" + row.heads() + " bracket" + places;
      default -> "mast-" + row.heads() + places;
    };
  }

  private static String display(String cells) {
    List<String> heads = new ArrayList<>();
    for (String cell : cells.split("/")) {
      String rhythm = cell.startsWith("F") ? "flashing " : "";
      heads.add(
          rhythm
              + switch (cell.substring(cell.length() - 1)) {
                case "R" -> "red";
                case "Y" -> "yellow";
                default -> "green";
              });
    }
    return String.join(" over ", heads);
  }
}
