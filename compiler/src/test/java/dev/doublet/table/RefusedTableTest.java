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
            5 | 04       | the table holds something that this version does not know
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
           18 | 2B       | a section begins elsewhere
           20 | 32       | a section begins elsewhere
           26 | 45       | a section begins elsewhere
           28 | 01       | a cycle leads to no kind
           29 | 01       | a byte that is kept is used
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
           36 | 43       | a piece lies among the sections or outside the table
           36 | 45       | an index reaches otherwise
           38 | 02       | a signal is of an unknown kind
           38 | 00       | an index reaches otherwise
           40 | 00       | an index reaches otherwise
           40 | 02       | an index reaches otherwise
           41 | 05       | records have another size
           41 | 06       | a listed address is of several signals
           42 | 04       | a chain's signals reach beyond its last LED
           42 | FF FF    | sound
           44 | 00       | an LED has none or more than four channels
           44 | 01       | sound
           44 | 04       | sound
           44 | 05       | an LED has none or more than four channels
           44 | 7F       | an LED has none or more than four channels
           45 | 43       | a piece lies among the sections or outside the table
           45 | 52       | sound
           45 | 53       | a piece lies among the sections or outside the table
           47 | 4F       | chains hold another number of signals
           49 | 01       | a chain has another first signal
           51 | 00 00    | a rhythm takes no time
           51 | 01 00    | sound
           53 | 00 00    | a rhythm takes no time
           55 | 00       | a light has a colour outside the palette
           55 | 01       | sound
           55 | 03       | a light has a colour outside the palette
           56 | 01       | a light has an unknown rhythm
           56 | 80       | sound
           57 | 01       | sound
           58 | 00       | a look has no state
           58 | 01       | a state shows an unknown light
           58 | 03       | a piece lies among the sections or outside the table
           58 | 82       | numbers of states name states
           59 | 53       | a piece lies among the sections or outside the table
           61 | 52       | sound
           61 | 4E       | sound
           63 | 05       | a kind has an unknown mode
           63 | 06       | a kind has an unknown mode
           63 | 08       | only numbers in bits have bits
           63 | 10       | only numbers in bits have bits
           63 | 20       | only topics carry names
           63 | 40       | sound
           63 | 80       | sound
           63 | 01 00    | a kind has a wrong number of addresses
           63 | 01 01    | sound
           63 | 01 04    | an index reaches otherwise
           63 | 01 05    | more than four addresses code a number
           63 | 02 02    | an index reaches otherwise
           63 | 03       | a kind's bus differs
           64 | 00       | a kind has a wrong number of addresses
           64 | 02       | an aspect number has one address
           65 | 01       | sound
           65 | 02       | a kind rests at a state it has not
           66 | 01       | a kind's bus differs
           67 | 01       | only bits settle
           67 | 40       | only bits settle
           67 | 80       | a piece lies among the sections or outside the table
           68 | 80       | an index reaches otherwise
           68 | 82       | a command is for a signal that is not there
           68 | E1 FF    | an address has more than eleven bits
           68 | C1 FF    | a bus has another lowest or highest address
           70 | 01       | a command is for a signal that is not there
           71 | 01       | a signal is of an unknown kind
           71 | 80       | a run begins at no kind
           78 | 01       | chains hold another number of signals
           78 | 03       | a chain's signals reach beyond its last LED
           78 | 82       | a signal is of an unknown kind
           79 | 00       | sound
           79 | 02       | a chain's signals reach beyond its last LED
           80 | 01       | a signal is of an unknown kind
           80 | 80       | a run begins at no kind
           78 | 80 01 00 | chains hold another number of signals
           81 | 01       | a signal is of an unknown kind
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
           12 | 02       | a section begins elsewhere
           16 | 00       | a light has a colour outside the palette
           28 | 02       | a cycle has no end
           32 | 02       | a bus has another lowest or highest address
           34 | FE 07    | a bus has another lowest or highest address
           38 | 02       | a signal lacks a key
           40 | 01       | an index reaches otherwise
           41 | 04       | a command is for a signal that is not there
           54 | 82       | a bus carries something unknown
           55 | 05       | a bus other than DCC counts bits
           60 | 02       | a piece lies among the sections or outside the table
           56 | FE       | an index reaches otherwise
           44 | 01       | an index of topics has a reach
           53 | 06       | records have another size
           66 | 05       | sound
           66 | 03       | a chain's signals reach beyond its last LED
           73 | 01       | a chain has another first signal
           84 | 00 00    | a rhythm takes no time
           89 | 01       | a light has an unknown rhythm
           91 | 00       | sound
           91 | 40       | a light has an unknown rhythm
           91 | 81       | a light has an unknown rhythm
           98 | 43       | an answer calls up a state unknown
           98 | E3       | sound
          100 | 02       | a kind rests at a state it has not
          102 | 00       | it says that it needs something else
          107 | 05       | an answer calls up a state unknown
          120 | 00       | a kind's bus differs
          131 | 01       | sound
          131 | 49       | sound
          135 | 00       | it says that it needs something else
          135 | 14       | sound
          135 | 40       | only bits settle
          135 | B3       | a vane passes a colour outside the palette
          136 | 02       | a state shows an unknown light
          147 | 00       | a chain's signals reach beyond its last LED
          147 | 05       | a cycle leads to no kind
          148 | 80       | a cycle leads to no kind
          149 | 81       | sound
          149 | 83       | a cycle leads to no kind
          149 | 80       | a cycle leads to no kind
          149 | 84       | a cycle leads to no kind
          149 | 01       | a cycle has no end
          169 | 81       | a signal is of two kinds
          169 | 82       | a run begins at no kind
          169 | 80 81    | a run begins at no kind
          171 | 81       | a chain's signals reach beyond its last LED
          173 | 02       | a chain's signals reach beyond its last LED
          176 | 00 00    | dark LEDs in a number that is kept
          175 | 7F       | a chain's signals reach beyond its last LED
          186 | 05       | a state shows an unknown light
          188 | 00 00    | a look tells of filaments and vanes, and has none
          188 | 00 01    | sound
          188 | 80 00    | sound
          188 | 83 02    | a vane passes a colour outside the palette
          202 | 01       | sound
          204 | 00       | a value has two answers
          204 | 01       | sound
          208 | 03       | an answer calls up a state unknown
          211 | 02       | an answer calls up a state unknown
          211 | 00       | sound
          213 | 61       | a listed address is of several signals
          215 | 03       | a signal is of two kinds
          218 | 00       | a signal has one key twice
          218 | 03       | a signal has more keys than its kind
          219 | C0 FF    | sound
          224 | 01       | a signal has one key twice
          225 | E1 FF    | a command is for a signal that is not there
          229 | 01       | a command is for a signal that is not there
          235 | 01       | a signal is of two kinds
          237 | 01       | a signal is of two kinds
          237 | 80       | a topic is of a run of kinds
          231 | 00       | sound
          246 | 02       | a signal has more keys than its kind
          248 | 01       | a signal has one key twice
          249 | 00       | a signal is of two kinds
          262 | 03       | a signal is of two kinds
          262 | 01       | an index reaches otherwise
          276 | FE       | a record passes the last event
          """)
  void ofTheLater(int at, String bytes, String said) {
    assertThat(with(HandMadeTableTest.LATER, at, bytes)).isEqualTo(said);
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
