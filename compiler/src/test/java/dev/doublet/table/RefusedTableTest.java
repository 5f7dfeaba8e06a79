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
            4 | 00       | format version 0; this reader knows version 3 alone
            4 | 02       | format version 2; this reader knows version 3 alone
            4 | C8       | format version 200; this reader knows version 3 alone
            5 | 01       | it says that it needs something else
            5 | 02       | it says that it needs something else
            5 | 04       | it says that it needs something else
            5 | 08       | it says that it needs something else
            5 | 10       | it says that it needs something else
            5 | 20       | it says that it needs something else
            5 | 80       | it says that it needs something else
            6 | 5B       | the header says 91 bytes, and there are 92
            6 | 5C 01    | the header says 348 bytes, and there are 92
           10 | 01       | chains hold another number of signals
           10 | 03       | chains hold another number of signals
           12 | 00       | a section begins elsewhere
           12 | 02       | a section begins elsewhere
           13 | 00       | a section begins elsewhere
           14 | 00       | a section begins elsewhere
           15 | 00       | a section begins elsewhere
           17 | 00       | a section begins elsewhere
           18 | 2A       | a section begins elsewhere
           20 | 33       | a section begins elsewhere
           26 | 45       | a section begins elsewhere
           28 | 01       | a cycle leads to no kind
           29 | 01       | a piece lies among the sections or outside the table
           16 | FC       | a piece lies among the sections or outside the table
           16 | FE       | a piece lies among the sections or outside the table
           16 | FF       | more colours and flashing colours than 255
           30 | 80       | sound
           30 | 03       | a bus carries something unknown
           30 | 04       | a bus carries something unknown
           31 | 06       | a DCC bus carries neither 5 nor 8 bits
           31 | 08       | sound
           30 | 01 05    | a bus other than DCC counts bits
           30 | 01 00    | a kind's bus differs
           32 | 05       | a bus has another lowest or highest address
           34 | 04       | a bus has another lowest or highest address
           36 | 42       | a piece lies among the sections or outside the table
           36 | 45       | a run begins at no kind
           38 | 02       | addresses are out of order
           38 | 00       | an index reaches otherwise
           40 | 00       | an index reaches otherwise
           40 | 02       | an index reaches otherwise
           41 | 04       | a chain's signals reach beyond its last LED
           41 | FF FF    | sound
           43 | 00       | an LED has none or more than four channels
           43 | 01       | sound
           43 | 04       | sound
           43 | 05       | an LED has none or more than four channels
           43 | 7F       | an LED has none or more than four channels
           44 | 42       | a piece lies among the sections or outside the table
           44 | 52       | sound
           44 | 53       | a piece lies among the sections or outside the table
           46 | 4F       | chains hold another number of signals
           48 | 01       | a chain has another first signal
           50 | 00 00    | a rhythm takes no time
           50 | 01 00    | sound
           52 | 00 00    | a rhythm takes no time
           54 | 00       | a light has a colour outside the palette
           54 | 01       | sound
           54 | 03       | a light has a colour outside the palette
           55 | 01       | a light has an unknown rhythm
           55 | 80       | sound
           56 | 01       | sound
           56 | 00       | a look has no LED
           57 | 00       | a look has no state
           57 | 01       | sound
           57 | 03       | a piece lies among the sections or outside the table
           57 | 82       | numbers of states name states
           58 | 55       | a piece lies among the sections or outside the table
           60 | 52       | sound
           60 | 4E       | sound
           62 | 05       | a kind has an unknown mode
           62 | 06       | a kind has an unknown mode
           62 | 08       | only numbers in bits have bits
           62 | 10       | only numbers in bits have bits
           62 | 20       | only topics carry names
           62 | 40       | sound
           62 | 80       | sound
           62 | 01 00    | a kind has a wrong number of addresses
           62 | 01 01    | sound
           62 | 01 04    | a bus has another lowest or highest address
           62 | 01 05    | more than four addresses code a number
           62 | 02 20    | a bus has another lowest or highest address
           62 | 02 21    | a kind has more than 32 addresses
           62 | 02 02    | a bus has another lowest or highest address
           62 | 03       | a kind's bus differs
           63 | 00       | a kind has a wrong number of addresses
           63 | 02       | an aspect number has one address
           64 | 01       | sound
           64 | 02       | a kind rests at a state it has not
           65 | 01       | a kind's bus differs
           66 | 01       | only bits settle
           66 | 40       | a piece lies among the sections or outside the table
           66 | 41       | a piece lies among the sections or outside the table
           66 | 80       | a piece lies among the sections or outside the table
           68 | 00       | a bus has another lowest or highest address
           68 | 10       | a command is for a signal that is not there
           67 | FF 0F    | an address has more than eleven bits
           67 | FE 0F    | a bus has another lowest or highest address
           69 | 01       | a command is for a signal that is not there
           70 | 80       | a signal has more keys than its kind
           71 | 01       | a signal is of an unknown kind
           71 | 80       | a run begins at no kind
           78 | 01       | chains hold another number of signals
           78 | 03       | a chain's signals reach beyond its last LED
           78 | 82       | sound
           80 | 00       | sound
           80 | 02       | a chain's signals reach beyond its last LED
           79 | 01       | a signal is of an unknown kind
           79 | 80       | a run begins at no kind
           78 | 80 01 00 | chains hold another number of signals
           81 | 01       | a place lies outside the table
           84 | 04       | a state shows an unknown light
           84 | 03       | sound
          """)
  void ofTheFirst(int at, String bytes, String said) {
    assertThat(with(HandMadeTableTest.TABLE, at, bytes)).isEqualTo(said);
  }

  @ParameterizedTest(name = "{0} to {1}: {2}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
            5 | 00       | it says that it needs something else
            5 | 01       | it says that it needs something else
            5 | 02       | it says that it needs something else
            5 | 0B       | it says that it needs something else
            5 | 07       | it says that it needs something else
           12 | 02       | a section begins elsewhere
           16 | 00       | a light has a colour outside the palette
           28 | 02       | a cycle has no end
           32 | 02       | a bus has another lowest or highest address
           34 | FE 07    | a bus has another lowest or highest address
           38 | 02       | an index reaches otherwise
           38 | 02 00 01 | a signal lacks a key
           40 | 01       | an index reaches otherwise
           52 | 82       | a bus carries something unknown
           53 | 05       | a bus other than DCC counts bits
           58 | 02       | a piece lies among the sections or outside the table
           54 | FE       | an index reaches otherwise, or too far
          254 | FF FF    | an index reaches otherwise, or too far
           43 | 01       | an index of topics has a reach
           63 | 05       | sound
           63 | 03       | a chain's signals reach beyond its last LED
           70 | 01       | a chain has another first signal
           81 | 00 00    | a rhythm takes no time
           86 | 01       | a light has an unknown rhythm
           88 | 00       | sound
           88 | 40       | a light has an unknown rhythm
           88 | 81       | a light has an unknown rhythm
           95 | 43       | an answer calls up a state unknown
           95 | E3       | sound
          97 | 02       | a kind rests at a state it has not
          99 | 00       | it says that it needs something else
          104 | 05       | an answer calls up a state unknown
          117 | 00       | a kind's bus differs
          128 | 01       | sound
          128 | 49       | sound
          132 | 00       | it says that it needs something else
          132 | 14       | sound
          132 | 40       | a state shows an unknown light
          132 | B3       | a vane passes a colour outside the palette
          133 | 02       | a state shows an unknown light
          144 | 00       | a chain's signals reach beyond its last LED
          144 | 05       | a cycle leads to no kind
          145 | 80       | a signal is of two kinds
          146 | 81       | sound
          146 | 82       | a cycle leads to no kind
          146 | 83       | a cycle leads to no kind
          145 | 80 81    | a cycle leads to no kind
          146 | 01       | a cycle has no end
          165 | 81       | a signal is of two kinds
          165 | 82       | a run begins at no kind
          167 | 81       | a run begins at no kind
          168 | 80 01 00 80 01 00 | dark LEDs follow dark LEDs
          168 | 81       | chains hold another number of signals
          170 | 02       | a chain's signals reach beyond its last LED
          173 | 00 00    | dark LEDs in a number that is kept
          172 | 7F       | a chain's signals reach beyond its last LED
          183 | 05       | a state shows an unknown light
          185 | 00 00    | a look tells of filaments and vanes, and has none
          185 | 00 01    | sound
          185 | 80 00    | sound
          185 | 83 02    | a vane passes a colour outside the palette
          199 | 01       | sound
          201 | 00       | a value has two answers
          201 | 01       | sound
          205 | 03       | an answer calls up a state unknown
          208 | 02       | an answer calls up a state unknown
          208 | 00       | sound
          211 | 08       | a signal has one key twice
          211 | 10       | a signal has more keys than its kind
          212 | 03       | a signal is of two kinds
          213 | 00       | a signal has one key twice
          215 | FE 0F    | an index reaches otherwise
          215 | FF 07    | a signal has one key twice
          220 | FF 0F    | a command is for a signal that is not there
          223 | 80       | sound
          229 | 01       | a signal is of two kinds
          231 | 01       | a signal is of two kinds
          231 | 80       | a topic is of a run of kinds
          225 | 00       | sound
          240 | 02       | a signal has more keys than its kind
          242 | 01       | a signal has one key twice
          243 | 00       | a signal is of two kinds
          243 | 80       | a listed event is of a run of kinds
          104 | CA 00    | listed events have answers
          260 | 00 04 00 00 00 00 00 00 | events are out of order
          256 | 03       | a signal is of two kinds
          256 | 01       | an index reaches otherwise, or too far
          270 | FE       | a record passes the last event
          """)
  void ofTheLater(int at, String bytes, String said) {
    assertThat(with(HandMadeTableTest.LATER, at, bytes)).isEqualTo(said);
  }

  @ParameterizedTest(name = "{0} to {1}: {2}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
            5 | 00       | it says that it needs something else
            5 | C0       | it says that it needs something else
           58 | 00       | it says that it needs something else
           58 | 82       | sound
           58 | 83       | a kind rests at a state it has not
           71 | 02       | sound
           71 | 03       | the LEDs of a numeral are not among those of its signal
           72 | 00       | the LEDs of a numeral are not among those of its signal
           73 | 01       | a state shows a row unknown
           76 | 02       | a state shows a row unknown
           74 | 02       | a state shows a figure unknown
           78 | 01       | a state shows a figure unknown
           81 | FF       | a state shows a figure unknown
           83 | 04       | a state shows an unknown light
           86 | 04       | a state shows an unknown light
          """)
  void ofTheOneWithANumeral(int at, String bytes, String said) {
    assertThat(with(HandMadeTableTest.NUMERAL, at, bytes)).isEqualTo(said);
  }

  @ParameterizedTest(name = "{0} to {1}: {2}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
           12 | 01       | a section begins elsewhere
           13 | 01       | a section begins elsewhere
           14 | 01       | a section begins elsewhere
           15 | 01       | a section begins elsewhere
           17 | 01       | a section begins elsewhere
           10 | 01       | chains hold another number of signals
           28 | 01       | a place lies outside the table
           16 | 7F       | sound
           18 | 1F       | a section begins elsewhere
          """)
  void ofTheEmptyOne(int at, String bytes, String said) {
    assertThat(with(HandMadeTableTest.EMPTY, at, bytes)).isEqualTo(said);
  }

  @ParameterizedTest
  @CsvSource({
    "0, 0 bytes are too few",
    "33, 33 bytes are too few",
    "34, 'the header says 92 bytes, and there are 34'",
    "91, 'the header says 92 bytes, and there are 91'",
    "93, 'the header says 92 bytes, and there are 93'"
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
