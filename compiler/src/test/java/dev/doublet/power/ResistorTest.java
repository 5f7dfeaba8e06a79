package dev.doublet.power;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.layout.Chip;
import dev.doublet.layout.Diode;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ResistorTest {

  /**
   * By Ohm's law, worked by hand: (5 V - 2 V) / 5 mA is 600 ohms, and 680 the next of series E12
   * (IEC 60063, from memory).
   */
  @ParameterizedTest
  @CsvSource({
    "5, 2, 5, 680",
    "5, 3.2, 18, 100",
    "12, 2, 10, 1000",
    "5, 2, 3, 1000",
    "5, 4.9, 10, 10"
  })
  void isTheNextOfTheSeriesAboveWhatOhmsLawAsks(
      double volts, double forward, double wanted, int next) {
    assertThat(Resistor.ohms(chip(forward, wanted), "red", volts)).hasValue(next);
  }

  @Test
  void isNotNeededWhereTheLedBearsAllThatTheOutputGives() {
    assertThat(Resistor.ohms(chip(2, 20), "red", 5)).isEmpty();
    assertThat(Resistor.ohms(chip(2, 0), "red", 5)).isEmpty();
    assertThat(Resistor.ohms(chip(0, 5), "red", 5)).isEmpty();
    assertThat(Resistor.ohms(chip(6, 5), "red", 5)).isEmpty();
  }

  private static Chip chip(double volts, double milliamps) {
    Span nowhere = new Span(new SourceFile("layout.yaml", ""), 0, 0);
    Map<String, Diode> diodes = Map.of("red", new Diode(null, volts, milliamps));
    return new Chip("tri", List.of("R", "G", "B"), 20, 1, new TreeMap<>(diodes), nowhere);
  }
}
