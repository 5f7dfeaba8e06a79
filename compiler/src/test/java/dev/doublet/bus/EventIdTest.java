package dev.doublet.bus;

import static org.assertj.core.api.Assertions.assertThat;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Event ids, against the rows of the published standards in {@code facts/}. */
class EventIdTest {

  @ParameterizedTest(name = "address {0} value {1}: {3}, {4}")
  @CsvFileSource(resources = "/facts/openlcb-extended.csv", numLinesToSkip = 1)
  void extendedAccessoryEventsAreAsPublished(
      int user, int value, String event, String mark, String source) {
    Packet.ExtendedAccessory command =
        new Packet.ExtendedAccessory(Accessory.binary(user, 1), value);
    assertThat(EventId.of(command)).hasToString(event);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "01.01.02.00.01.00.04",
        "01.01.02.00.01.00.04.05.06",
        "1.1.2.0.1.0.4.5",
        "01.01.02.00.01.00.04.0G",
        "0101020001000405",
        "01-01-02-00-01-00-04-05",
        " 01.01.02.00.01.00.04.05"
      })
  void whatIsNotEightPairsIsNoEvent(String text) {
    assertThat(EventId.parse(text)).isEmpty();
  }

  @Test
  void eventsRunOnFromAFirstOneAndNotPastTheLast() {
    EventId first = EventId.parse("05.01.01.01.22.60.00.ff").orElseThrow();
    assertThat(first.plus(1).orElseThrow()).hasToString("05.01.01.01.22.60.01.00");
    assertThat(EventId.parse("FF.FF.FF.FF.FF.FF.FF.FF").orElseThrow().plus(1)).isEmpty();
  }

  @Property(seed = "1957")
  void everyEventComesBack(@ForAll long bits) {
    EventId event = new EventId(bits);
    assertThat(EventId.parse(event.toString())).contains(event);
  }
}
