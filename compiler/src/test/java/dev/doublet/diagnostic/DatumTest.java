package dev.doublet.diagnostic;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.source.SourceFile;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** What people read is made of what programs read. */
class DatumTest {
  @Test
  void a_sentence_is_filled_with_its_data() {
    assertThat(
            Datum.fill(
                "form \"{form}\" has {heads} for \"{aspects}\", {volts} V at LED {led}",
                Datum.of("form", "home"),
                Datum.count("heads", 2, "head"),
                Datum.of("aspects", List.of("Stop", "Clear")),
                Datum.of("volts", 5.0),
                Datum.of("led", 17)))
        .isEqualTo("form \"home\" has 2 heads for \"Stop\" and \"Clear\", 5 V at LED 17");
  }

  @Test
  void a_chain_says_what_each_does_to_the_next_and_after_ten_how_many_more() {
    Datum round = Datum.chain("round", "like", List.of("One", "Two", "One"));
    assertThat(Datum.fill("\"{round}\"", round)).isEqualTo("\"One\" like \"Two\" like \"One\"");
    List<String> files = IntStream.rangeClosed(1, 12).mapToObj(Integer::toString).toList();
    assertThat(Datum.fill("{files}", Datum.chain("files", "uses", files)))
        .isEqualTo("1 uses 2 uses 3 uses 4 uses 5 uses 6 uses 7 uses 8 uses 9 uses 10 and 2 more");
  }

  @Test
  void what_names_no_datum_stays_and_no_value_is_filled_again() {
    assertThat(
            Datum.fill(
                "{n} { top } of \"{name}\" and {$1}",
                Datum.of("name", "{form} $1 \\"),
                Datum.of("form", "home")))
        .isEqualTo("{n} { top } of \"{form} $1 \\\" and {$1}");
  }

  @Test
  void the_data_of_all_sentences_are_the_findings_own_each_once() {
    SourceFile file = new SourceFile("book.aspects", "form");
    Datum form = Datum.of("form", "home");
    Diagnostic said =
        Diagnostic.error("incomplete", Tier.NAMES, file.span(0, 4), "form {form}", form)
            .label("its {form}", form)
            .related(file.span(0, 1), "{led}", Datum.of("led", 1))
            .ways(List.of("one", "two"));
    assertThat(said.help()).isEqualTo("one; or two");
    assertThat(said.data())
        .containsExactly(form, Datum.of("led", 1), Datum.of("ways", List.of("one", "two")));
  }
}
