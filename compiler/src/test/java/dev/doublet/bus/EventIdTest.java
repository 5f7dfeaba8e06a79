package dev.doublet.bus;

import static org.assertj.core.api.Assertions.assertThat;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
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
    assertThat(EventId.parse(event).orElseThrow().accessory()).contains(command);
  }

  @ParameterizedTest(name = "address {0}: {4}, {5}")
  @CsvFileSource(resources = "/facts/openlcb-basic.csv", numLinesToSkip = 1)
  void basicAccessoryEventsAreAsPublished(
      int user, String reverse, String normal, String off, String mark, String source) {
    int binary = Accessory.binary(user, 1);
    isEvent(new Packet.BasicAccessory(binary, 0, true), reverse);
    isEvent(new Packet.BasicAccessory(binary, 1, true), normal);
    isEvent(new Packet.BasicAccessory(binary, 0, false), off);
  }

  /** Feedback and emergency ranges of the OpenLCB Event Identifiers Standard, part 5.3. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "01.01.02.00.00.FD.00.08",
        "01.01.02.00.00.FB.00.08",
        "01.01.02.00.00.FF.10.00",
        "01.01.02.00.01.08.00.00",
        "01.00.00.00.00.00.FF.FF",
        "05.01.01.01.22.60.00.00"
      })
  void otherEventsCommandNoAccessory(String event) {
    assertThat(EventId.parse(event).orElseThrow().accessory()).isEmpty();
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

  @Property(seed = "1957")
  void everyAccessoryCommandComesBack(
      @ForAll @IntRange(max = 2047) int binary,
      @ForAll @IntRange(max = 255) int value,
      @ForAll boolean activate) {
    Packet.BasicAccessory basic = new Packet.BasicAccessory(binary, value & 1, activate);
    Packet.ExtendedAccessory extended = new Packet.ExtendedAccessory(binary, value);
    assertThat(EventId.of(basic).accessory()).contains(basic);
    assertThat(EventId.of(extended).accessory()).contains(extended);
  }

  private static void isEvent(Packet.BasicAccessory command, String event) {
    assertThat(EventId.of(command)).hasToString(event);
    assertThat(EventId.parse(event).orElseThrow().accessory()).contains(command);
  }
}
