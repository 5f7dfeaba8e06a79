package dev.doublet.bus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.HexFormat;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

/** Addresses and packets, against the rows of the published standards in {@code facts/}. */
class AccessoryTest {
  private static final HexFormat HEX = HexFormat.ofDelimiter(" ").withUpperCase();

  @ParameterizedTest(name = "address {0}: {7}, {8}")
  @CsvFileSource(resources = "/facts/dcc-basic.csv", numLinesToSkip = 1)
  void basicPacketsAreAsPublished(
      int user,
      int binary,
      int decoder,
      int port,
      String reverse,
      String normal,
      String off,
      String mark,
      String source) {
    assertThat(Accessory.binary(user, 1)).isEqualTo(binary);
    assertThat(Accessory.user(binary, 1)).isEqualTo(user);
    assertThat(Accessory.decoder(binary)).isEqualTo(decoder);
    assertThat(binary - 4 * decoder).isEqualTo(port);
    saysAndIsSaidBy(new Packet.BasicAccessory(binary, 0, true), reverse);
    saysAndIsSaidBy(new Packet.BasicAccessory(binary, 1, true), normal);
    saysAndIsSaidBy(new Packet.BasicAccessory(binary, 0, false), off);
  }

  @ParameterizedTest(name = "address {0} value {1}: {3}, {4}")
  @CsvFileSource(resources = "/facts/dcc-extended.csv", numLinesToSkip = 1)
  void extendedPacketsAreAsPublished(
      int user, int value, String packet, String mark, String source) {
    saysAndIsSaidBy(new Packet.ExtendedAccessory(Accessory.binary(user, 1), value), packet);
  }

  @ParameterizedTest(name = "{0}: {3}, {4}")
  @CsvFileSource(resources = "/facts/dcc-nem672.csv", numLinesToSkip = 1)
  void speedAspectsTravelInEightBits(
      String what, String value, String packet, String mark, String source) {
    saysAndIsSaidBy(new Packet.ExtendedAccessory(4, Integer.parseInt(value, 16)), packet);
  }

  @ParameterizedTest(name = "{0} in {1} bits: {3}, {4}")
  @CsvFileSource(resources = "/facts/dcc-read.csv", numLinesToSkip = 1)
  void bytesAreToldApart(String bytes, int bits, String says, String mark, String source) {
    assertThat(PacketWords.of(HEX.parseHex(bytes), bits)).isEqualTo(says);
  }

  /** Where decoders are counted from 0 the same number means another packet. */
  @Test
  void systemsThatCountFromDecoderZeroSendAnotherPacket() {
    int binary = Accessory.binary(1, 0);
    assertThat(HEX.formatHex(new Packet.ExtendedAccessory(binary, 0).bytes()))
        .isEqualTo("80 71 00 F1");
    assertThat(HEX.formatHex(new Packet.BasicAccessory(binary, 0, true).bytes()))
        .isEqualTo("80 F8 78");
    assertThat(Accessory.user(4, 0)).isEqualTo(5);
    assertThat(Accessory.binary(2048, 0)).isEqualTo(2047);
  }

  /** NMRA S-9.2.1 (July 2012) prints the broadcast forms; the addresses that equal them follow. */
  @Test
  void addressesThatMeetABroadcastAreKnown() {
    assertThat(users(u -> Accessory.basicMeetsBroadcast(u, 1)))
        .containsExactly(2041, 2042, 2043, 2044);
    assertThat(users(u -> Accessory.extendedMeetsBroadcast(u, 1))).containsExactly(2044);
    assertThat(users(u -> Accessory.basicMeetsBroadcast(u, 0)))
        .containsExactly(2045, 2046, 2047, 2048);
    assertThat(users(u -> Accessory.extendedMeetsBroadcast(u, 0))).containsExactly(2048);
  }

  /** OpenLCB Event Identifiers Standard, 22 July 2024: users 2045 to 2048 are binary 0 to 3. */
  @Test
  void theLastFourLinearAddressesComeRound() {
    assertThat(users(u -> Accessory.comesRound(u, 1))).containsExactly(2045, 2046, 2047, 2048);
    assertThat(users(u -> Accessory.comesRound(u, 0))).isEmpty();
  }

  @Test
  void impossibleNumbersAreRefused() {
    assertThatThrownBy(() -> Accessory.binary(0, 1)).hasMessage("address 0 is outside 1 to 2048");
    assertThatThrownBy(() -> Accessory.binary(2049, 1)).hasMessageContaining("2049");
    assertThatThrownBy(() -> Accessory.binary(1, 2)).hasMessageContaining("first decoder");
    assertThatThrownBy(() -> Accessory.user(2048, 1)).hasMessageContaining("11-bit");
    assertThatThrownBy(() -> new Packet.ExtendedAccessory(4, 256)).hasMessageContaining("value");
    assertThatThrownBy(() -> new Packet.BasicAccessory(4, 2, true)).hasMessageContaining("output");
    assertThatThrownBy(() -> new Packet.BasicAccessory(-1, 0, true)).hasMessageContaining("-1");
  }

  @Property(seed = "1957")
  void everyAddressComesBack(
      @ForAll @IntRange(min = 1, max = 2048) int user, @ForAll @IntRange(max = 1) int first) {
    assertThat(Accessory.user(Accessory.binary(user, first), first)).isEqualTo(user);
  }

  @Property(seed = "1957")
  void everyBasicPacketComesBack(
      @ForAll @IntRange(max = 2043) int binary,
      @ForAll @IntRange(max = 1) int output,
      @ForAll boolean activate) {
    Packet sent = new Packet.BasicAccessory(binary, output, activate);
    assertThat(sent).hasToString(PacketWords.of(sent.bytes(), 8));
  }

  @Property(seed = "1957")
  void everyExtendedPacketComesBack(
      @ForAll @IntRange(max = 2046) int binary, @ForAll @IntRange(max = 255) int value) {
    Packet sent = new Packet.ExtendedAccessory(binary, value);
    assertThat(sent).hasToString(PacketWords.of(sent.bytes(), 8));
  }

  private static void saysAndIsSaidBy(Packet packet, String hex) {
    assertThat(packet.hex()).isEqualTo(hex);
    String words = PacketWords.of(HEX.parseHex(hex), 8);
    if (words.contains("Broadcast")) {
      assertThat(packet.toString().replaceAll("Accessory.*", ""))
          .isEqualTo(words.replaceAll("Broadcast.*", ""));
    } else {
      assertThat(packet).hasToString(words);
    }
  }

  private static IntStream users(IntPredicate such) {
    return IntStream.rangeClosed(Accessory.LOWEST, Accessory.HIGHEST).filter(such);
  }
}
