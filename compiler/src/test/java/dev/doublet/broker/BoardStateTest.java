package dev.doublet.broker;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class BoardStateTest {
  private static final String SAID =
      "installed 0A1B2C3D edition 3 offered 00000000 slot 1 room 4096 reason sound";

  private static BoardState state(String text) {
    return BoardState.of(text.getBytes(StandardCharsets.UTF_8));
  }

  /** A table whose last four bytes are these, lowest first. */
  private static TableOffer offer(int length, int... last) {
    byte[] table = new byte[length];
    for (int i = 0; i < 4; i++) {
      table[length - 4 + i] = (byte) last[i];
    }
    return new TableOffer("bank", 3, table);
  }

  @Test
  void it_says_what_runs_where_and_why() {
    assertThat(state(SAID))
        .isEqualTo(new BoardState("there", "0A1B2C3D", 3, "00000000", "1", 4096, "sound"));
    assertThat(state("lost").word()).isEqualTo("lost");
    assertThat(state("away").isThere()).isFalse();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "lost ",
        "installed 0A1B2C3D edition 3 offered 00000000 slot 2 room 4096 reason sound",
        "installed 0a1b2c3d edition 3 offered 00000000 slot 1 room 4096 reason sound",
        "installed 0A1B2C3D edition 300000 offered 00000000 slot 1 room 4096 reason sound",
        "installed 0A1B2C3D edition 3 offered 00000000 slot 1 room 4096 reason ",
        "installed 0A1B2C3D edition 3 offered 00000000 slot 1 room 4096 reason a\nb",
        "installed 0A1B2C3D offered 00000000 slot 1 reason sound"
      })
  void what_no_board_says_is_unclear(String text) {
    assertThat(state(text).word()).isEqualTo("unclear");
  }

  @Test
  void any_bytes_are_taken() {
    Random random = new Random(3);
    for (int i = 0; i < 2000; i++) {
      byte[] bytes = i % 2 == 0 ? new byte[random.nextInt(80)] : SAID.getBytes();
      if (i % 2 == 0) {
        random.nextBytes(bytes);
      } else {
        bytes[random.nextInt(bytes.length)] = (byte) random.nextInt(256);
      }
      assertThat(BoardState.of(bytes).word()).isIn("there", "unclear");
    }
    assertThat(state(SAID + "x".repeat(100_000)).word()).isEqualTo("unclear");
  }

  @Test
  void a_checksum_is_the_last_four_bytes_lowest_first() {
    assertThat(offer(40, 0x3D, 0x2C, 0x1B, 0x0A).sum()).isEqualTo("0A1B2C3D");
  }

  @Test
  void between_a_sound_table_and_its_first_frame_nothing_is_decided() {
    TableOffer offer = offer(40, 0x3D, 0x2C, 0x1B, 0x0A);
    String taken = SAID.replace("00000000", "0A1B2C3D");
    assertThat(offer.isDecidedBy(state(taken))).isTrue();
    assertThat(offer.isDecidedBy(state(taken.replace("installed 0A1B2C3D", "installed 00000001"))))
        .isFalse();
    assertThat(
            offer.isDecidedBy(
                state(
                    taken
                        .replace("installed 0A1B2C3D", "installed 00000001")
                        .replace("sound", "refused: over the room for a table"))))
        .isTrue();
    assertThat(offer.isDecidedBy(state(SAID))).isFalse();
  }

  @Test
  void a_table_is_sent_where_another_runs_or_waits_and_to_nobody_unnamed() {
    assertThat(plan(SAID, "", true)).isEqualTo(SendPlan.RUN_ALREADY);
    String other = SAID.replace("00000000", "00000001");
    assertThat(plan(other, "", false)).isEqualTo(SendPlan.SEND);
    assertThat(plan("lost", "", false)).isEqualTo(SendPlan.SEND);
    assertThat(plan("lost", "00000001", false)).isEqualTo(SendPlan.SEND);
    assertThat(plan("x", "", false)).isEqualTo(SendPlan.NO_BOARD);
    assertThat(plan(other.replace("4096", "39"), "", true)).isEqualTo(SendPlan.TOO_LONG);
    TableOffer offer = offer(40, 0x3D, 0x2C, 0x1B, 0x0A);
    for (boolean named : new boolean[] {true, false}) {
      assertThat(SendPlan.of(offer, Optional.empty(), Optional.empty(), named))
          .isEqualTo(named ? SendPlan.SEND : SendPlan.NO_BOARD);
    }
  }

  /** Of a board that is there its own word counts. */
  @Test
  void what_the_broker_keeps_for_a_board_that_is_not_there_is_not_sent_again() {
    for (String word : new String[] {"lost", "away"}) {
      assertThat(plan(word, "0A1B2C3D", false)).isEqualTo(SendPlan.KEPT_ALREADY);
    }
    assertThat(plan("x", "0A1B2C3D", true)).isEqualTo(SendPlan.KEPT_ALREADY);
    assertThat(plan("x", "0A1B2C3D", false)).isEqualTo(SendPlan.NO_BOARD);
    String other = SAID.replace("installed 0A1B2C3D", "installed 00000001");
    assertThat(plan(other, "0A1B2C3D", false)).isEqualTo(SendPlan.SEND);
  }

  private static SendPlan plan(String said, String kept, boolean named) {
    Optional<String> sum = Optional.of(kept).filter(k -> !k.isEmpty());
    TableOffer offer = offer(40, 0x3D, 0x2C, 0x1B, 0x0A);
    return SendPlan.of(offer, Optional.of(state(said)), sum, named);
  }

  /** Two people may send one board tables at once; each is told what became of theirs. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "11111111 11111111 | 11111111 11111111 | sent, and shown",
        "22222222 11111111 | 22222222 11111111 | sent, and refused",
        "11111111 11111111 | 33333333 33333333 | sent, and shown, but no longer",
        "11111111 11111111 | 22222222 22222222 | sent, and shown, but no longer",
        "| 33333333 33333333 | sent, but somebody has sent the board another table since",
        "| 22222222 22222222 | sent, but the board has said nothing of it;"
            + " may this user write to bank/table?"
      })
  void who_sends_a_table_is_told_what_became_of_it(String answer, String now, String fate) {
    TableOffer offer = offer(100, 0x11, 0x11, 0x11, 0x11);
    BoardState before = shows("22222222 22222222");
    SendResult result =
        new SendResult(
            offer,
            SendPlan.of(offer, Optional.of(before), Optional.empty(), false),
            Optional.of(before),
            Optional.ofNullable(answer).map(BoardStateTest::shows),
            Optional.of(shows(now)),
            Optional.empty(),
            false);
    assertThat(result.text()).endsWith("\n  " + fate + "\n");
    assertThat(result.isFailure()).isEqualTo(!fate.endsWith("shown"));
  }

  private static BoardState shows(String installedAndOffered) {
    String[] sums = installedAndOffered.split(" ");
    return state(
        "installed "
            + sums[0]
            + " edition 3 offered "
            + sums[1]
            + " slot 1 room 4096 reason "
            + (sums[0].equals(sums[1]) ? "sound" : "refused"));
  }
}
