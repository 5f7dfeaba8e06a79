package dev.doublet.chart;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Cells that no spreadsheet takes for formulas; which do begin one is what OWASP's page "CSV
 * Injection" lists.
 */
class CsvTest {
  @ParameterizedTest
  @CsvSource(
      delimiter = '!',
      quoteCharacter = '^',
      value = {
        "=1+1 ! '=1+1",
        "+A1 ! '+A1",
        "-A1 ! '-A1",
        "@SUM(A1) ! '@SUM(A1)",
        "＝1 ! '＝1",
        "-1 ! -1",
        "-1.5 ! -1.5",
        "-1+1 ! '-1+1",
        "W1 ! W1",
        "W-1 ! W-1",
        "W1;=1 ! W1;'=1",
        "W1; =1 ! W1;' =1",
        "'=1 ! '=1"
      })
  void a_cell_that_would_begin_a_formula_begins_with_an_apostrophe(String name, String cell) {
    assertThat(Csv.row(List.of("a", name))).isEqualTo("a," + cell + "\n");
  }

  @Test
  void blanks_and_tabs_before_a_formula_do_not_help_it() {
    assertThat(Csv.row(List.of("\t=1", " =1", "a\t=1", "\r=1")))
        .isEqualTo("'\t=1,' =1,a\t'=1,\"'\r=1\"\n");
  }

  @Test
  void separators_and_quotes_are_quoted() {
    assertThat(Csv.row(List.of("a,b", "a\"b", "a\nb"))).isEqualTo("\"a,b\",\"a\"\"b\",\"a\nb\"\n");
  }
}
