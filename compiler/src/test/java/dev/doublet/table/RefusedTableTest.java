package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.HexFormat;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The tables written by hand, with a few bytes changed and a checksum that fits: each rule of the
 * page on the format broken, and at its limits kept.
 */
class RefusedTableTest {
  private static final String SOUND = "sound";

  @ParameterizedTest(name = "{0} to {1}: {2}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
           0 | 45       | the first four bytes are not DBLT
           1 | 43       | the first four bytes are not DBLT
           2 | 4D       | the first four bytes are not DBLT
           3 | 55       | the first four bytes are not DBLT
           4 | 00       | format version 0; this reader knows versions 1 and 2
           4 | C8       | format version 200; this reader knows versions 1 and 2
           4 | 02       | a table of version 2 that version 1 could say
           5 | 01       | lights are packed in another number of bits
           5 | 03       | lights are packed in another number of bits
           6 | 3E       | the header says 62 bytes, and there are 63
           6 | 3F 01    | the header says 319 bytes, and there are 63
          10 | 01       | entries hold another number of signals
          10 | 03       | entries hold another number of signals
          12 | 80       | more than 127 buses, rhythms or colours
          12 | 7F       | a bus carries something unknown
          14 | 80       | more than 127 buses, rhythms or colours
          14 | 7F       | a rhythm takes no time
          17 | 80       | more than 127 buses, rhythms or colours
          17 | 7F       | a place lies outside the table
          18 | 03       | a bus carries something unknown
          19 | 06       | a DCC bus carries neither 5 nor 8 bits
          19 | 08       | sound
          20 | 02       | decoders are counted neither from 0 nor from 1
          20 | 00       | sound
          18 | 01 05 00 | a bus other than DCC counts decoders
          18 | 01 00 01 | a bus other than DCC counts decoders
          18 | 01 00 00 | a kind's bus differs
          21 | 04       | a signal reaches beyond the last LED
          21 | FF FF    | sound
          23 | 00       | an LED has none or more than four channels
          23 | 01       | sound
          23 | 04       | sound
          23 | 05       | an LED has none or more than four channels
          23 | 7F       | an LED has none or more than four channels
          23 | 80       | a number over 127
          24 | 00       | sound
          24 | 35       | sound
          24 | 36       | a place lies outside the table
          24 | FF FF    | a place lies outside the table
          26 | 00 00    | a rhythm takes no time
          26 | 01 00    | sound
          28 | 00 00    | a rhythm takes no time
          28 | 01 00    | sound
          30 | 00       | a light has a colour outside the palette
          30 | 02       | sound
          30 | 03       | a light has a colour outside the palette
          33 | 00       | sound
          33 | 02       | a light has an unknown rhythm
          34 | 3B       | a place lies outside the table
          36 | 05       | a kind has an unknown mode
          36 | 06       | a kind has an unknown mode
          36 | 08       | only numbers in bits have bits
          36 | 10       | only numbers in bits have bits
          36 | 20       | only topics carry names
          36 | 40       | sound
          36 | 01 00 04 | sound
          36 | 01 00 05 | more than four addresses code a number
          36 | 02 00 05 | sound
          36 | 03       | a kind's bus differs
          37 | 01       | a kind's bus differs
          38 | 00       | a kind has a wrong number of addresses
          38 | 02       | an aspect number has one address
          39 | 01       | sound
          39 | 02       | a kind rests at a state it has not
          40 | 3A       | a place lies outside the table
          42 | 00       | entries hold another number of signals
          42 | 01       | entries hold another number of signals
          42 | 03       | entries hold another number of signals
          42 | 82       | a signal is of an unknown kind
          43 | 00       | sound
          43 | 02       | a signal reaches beyond the last LED
          43 | FF FF    | a signal reaches beyond the last LED
          45 | 01       | a signal is of an unknown kind
          46 | FF 07    | sound
          46 | 00 08    | an address has more than eleven bits
          54 | 03       | a place lies outside the table
          55 | 00       | a look has no state
          55 | 82       | a number over 127
          58 | F1       | a state shows an unknown light
          """)
  void ofTheFirst(int at, String bytes, String said) {
    assertThat(with(HandMadeTableTest.TABLE, at, bytes)).isEqualTo(said);
  }

  @ParameterizedTest(name = "{0} to {1}: {2}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
            4 | 01                      | a number over 127
           17 | 00                      | a palette of no colour has another for the night
           24 | 02 08 00                | a bus other than DCC counts decoders
           27 | FD FF                   | more LEDs than can be numbered
           27 | FC FF                   | sound
           27 | 03                      | a signal reaches beyond the last LED
           27 | 05                      | sound
           32 | 02                      | a signal reaches beyond the last LED
           42 | 80                      | a steady light starts dark
           49 | E3                      | topics are not listed
           49 | 64                      | a kind's bus differs
           51 | 01                      | a kind has a wrong number of addresses
           55 | 91 00 A4                | only topics carry names
           88 | 03 00                   | a signal reaches from one chain into the next
           95 | 82 02 00 01 02          | an entry holds signals with unlike keys
           98 | 05                      | a signal is of an unknown kind
          102 | B5 00                   | a place lies outside the table
          100 | A7 00                   | sound
          100 | A8 00                   | a place lies outside the table
          122 | 00 08                   | an address has more than eleven bits
          143 | 00 00                   | a look tells of filaments and vanes, and has none
          143 | 00 01                   | sound
          143 | 80 00                   | sound
          143 | 00 03                   | a vane passes a colour outside the palette
          143 | 83 02                   | a vane passes a colour outside the palette
          176 | 00 08                   | an address has over eleven bits
          178 | 03                      | a place lies outside the table
          181 | 00                      | answers are out of order
          182 | 02                      | an answer calls up a state unknown
          """)
  void ofTheLater(int at, String bytes, String said) {
    assertThat(with(HandMadeTableTest.LATER, at, bytes)).isEqualTo(said);
  }

  @ParameterizedTest(name = "{0} to {1}: {2}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          12 | 01 | a section runs into the checksum
          13 | 01 | a section runs into the checksum
          14 | 01 | a section runs into the checksum
          15 | 01 | a section runs into the checksum
          16 | 01 | a section runs into the checksum
          10 | 01 | a section runs into the checksum
          17 | 7F | sound
          """)
  void ofTheEmptyOne(int at, String bytes, String said) {
    assertThat(with(HandMadeTableTest.EMPTY, at, bytes)).isEqualTo(said);
  }

  @ParameterizedTest
  @CsvSource({
    "0, 0 bytes are too few",
    "21, 21 bytes are too few",
    "22, 'the header says 63 bytes, and there are 22'",
    "62, 'the header says 63 bytes, and there are 62'",
    "64, 'the header says 63 bytes, and there are 64'"
  })
  void cutShortOrLong(int length, String said) {
    assertThat(said(Arrays.copyOf(HandMadeTableTest.TABLE, length))).isEqualTo(said);
  }

  private static String with(byte[] table, int at, String hex) {
    byte[] bytes = HexFormat.of().parseHex(hex.replace(" ", ""));
    byte[] changed = table.clone();
    System.arraycopy(bytes, 0, changed, at, bytes.length);
    assertThat(changed).isNotEqualTo(table);
    Samples.seal(changed);
    return said(changed);
  }

  private static String said(byte[] table) {
    try {
      TableDecoder.decode(table);
      return SOUND;
    } catch (TableFault fault) {
      return fault.getMessage();
    }
  }
}
