package dev.doublet.check;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.Compiler;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.source.SourceFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

/**
 * Canadian Rail Operating Rules 405 to 440 (Transport Canada TC O-0-93), as two crew study decks
 * quote them; the row's evidence says which. Checked against 49 CFR 236.23(c): one picture, one
 * name.
 */
class CanadianRulesTest {
  private record Row(
      String rule,
      String name,
      String here,
      String next,
      int ahead,
      int heads,
      String mount,
      String pattern,
      String plate) {}

  @Test
  void no_two_of_the_good_rows_look_alike() throws IOException {
    assertThat(twins(book(goodRows(), true))).isEmpty();
  }

  @Test
  void with_the_mount_dropped_exactly_three_pictures_clash() throws IOException {
    List<String> shared = new ArrayList<>();
    for (Diagnostic twin : twins(book(goodRows(), false))) {
      shared.add(
          twin.facts().get(0).value() + ": " + twin.message().replaceAll(" look alike.*", ""));
    }
    assertThat(shared)
        .containsExactlyInAnyOrder(
            "green: \"405 Clear\" and \"431 Slow to Clear\"",
            "red over red: \"437 Stop and Proceed\" and \"439 Stop\"",
            "red: \"437 Stop and Proceed\" and \"439 Stop\"");
  }

  private static List<Diagnostic> twins(String book) {
    Compiler.Checked<?> checked =
        Compiler.checkRulebook("cror.aspects", path -> new SourceFile(path, book));
    assertThat(checked.value()).as(checked.diagnostics().toString()).isPresent();
    return checked.diagnostics().stream().filter(d -> d.name().equals("twin-aspects")).toList();
  }

  private static List<Row> goodRows() throws IOException {
    List<Row> rows = new ArrayList<>();
    List<String> lines = Files.readAllLines(Path.of("src/test/resources/facts/cror.csv"));
    for (String line : lines.subList(1, lines.size())) {
      String[] cells = line.split(",", 10);
      boolean good =
          !cells[9].contains("disputed") && !cells[9].contains("suspect") && !cells[5].equals("0");
      if (good) {
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
                cells[8]));
      }
    }
    assertThat(rows).hasSize(78);
    return rows;
  }

  private static String book(List<Row> rows, boolean withMount) {
    StringBuilder book = new StringBuilder();
    book.append("rulebook \"CROR\"\nspeeds in mph { track maximum limited 45 medium 30 ");
    book.append("diverging 25 slow 15 restricted 15 on sight diverging-reduced 15 on sight ");
    book.append("unspecified unranked special-instructions unranked }\n");
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
      book.append(" show ").append(pattern(row.pattern())).append('\n');
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
    String here = row.here().equals("diverging(reduced)") ? "diverging-reduced" : row.here();
    return here + " then " + row.next() + (row.ahead() == 2 ? " at the second signal" : "");
  }

  private static String form(Row row, boolean withMount) {
    String places =
        " { " + "top middle bottom".substring(0, new int[] {0, 3, 10, 17}[row.heads()]) + " }";
    if (!withMount) {
      return "heads-" + row.heads() + places;
    }
    return switch (row.mount()) {
      case "dwarf" -> "dwarf-" + row.heads() + " dwarf" + places;
      case "mast-staggered" -> "staggered-" + row.heads() + " staggered" + places;
      // Where the deck does not say how the heads stand, rule 437 on one head is told from rule 439
      // by being another kind of mast.
      case "unstated" -> "unstated-" + row.heads() + " bracket" + places;
      default -> "mast-" + row.heads() + places;
    };
  }

  private static String pattern(String cells) {
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
