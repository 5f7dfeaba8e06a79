package dev.doublet.layout.read;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.chart.Answers;
import dev.doublet.chart.AnswersCsv;
import dev.doublet.chart.ManySignals;
import dev.doublet.layout.Layout;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class NameRunTest {
  @Test
  void two_hundred_signals_of_six_kinds_on_two_chains_take_few_lines() {
    assertThat(ManySignals.text(219, true).lines().count()).isLessThanOrEqualTo(60);
    Layout layout = ManySignals.layout(219);
    assertThat(layout.whole()).isTrue();
    assertThat(layout.controllers().get(0).signals()).hasSize(219);
    assertThat(layout.controllers().get(0).chains()).hasSize(2);
  }

  @Test
  void signals_written_as_one_are_the_same_as_signals_written_one_by_one() {
    for (int signals : List.of(12, 50, 219)) {
      Layout one = ManySignals.layout(ManySignals.text(signals, false));
      Layout run = ManySignals.layout(ManySignals.text(signals, true));
      assertThat(LayoutListing.of(run)).isEqualTo(LayoutListing.of(one));
      assertThat(AnswersCsv.of(Answers.of(run))).isEqualTo(AnswersCsv.of(Answers.of(one)));
    }
  }

  @ParameterizedTest
  @CsvSource({
    "J1 to J40, 40, J1, J40",
    "J08 to J12, 5, J08, J12",
    "J98 to J102, 5, J98, J102",
    "1 to 3, 3, 1, 3",
    "Up 2 to Up 3, 2, Up 2, Up 3",
    "J0 to J2, 3, J0, J2",
    "J1-01 to J1-10, 10, J1-01, J1-10"
  })
  void a_run_has_every_name_between(String text, int count, String first, String last) {
    List<String> names = NameRun.names(text);
    assertThat(NameRun.fault(text)).isEmpty();
    assertThat(names).hasSize(count).doesNotHaveDuplicates().startsWith(first).endsWith(last);
  }

  @ParameterizedTest
  @ValueSource(strings = {"J1", "Road to Hill", "J1 to Yard", "to", "Up to 3", "J1to J3"})
  void other_names_are_names_of_one(String text) {
    assertThat(NameRun.names(text)).containsExactly(text);
    assertThat(NameRun.fault(text)).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "J40 to J1",
        "J1 to J1",
        "J1 to K3",
        "J1A to J4A",
        "J1 TO J4",
        "J1 to 40",
        "J01 to J100",
        "J1 to J040",
        "J1 to J10000",
        "J1 to J99999999999999999999"
      })
  void a_wrong_run_is_one_name_with_a_fault(String text) {
    assertThat(NameRun.names(text)).containsExactly(text);
    assertThat(NameRun.fault(text)).isPresent();
  }
}
