package dev.doublet.layout.read;

import static java.util.List.of;

import dev.doublet.bus.Accessory;
import dev.doublet.colour.Channel;
import dev.doublet.colour.Eye;
import dev.doublet.colour.LedFamily;
import dev.doublet.diagnostic.FindingNames;
import dev.doublet.layout.Board;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Servo;
import dev.doublet.layout.Way;
import dev.doublet.layout.read.Commands.By;
import dev.doublet.layout.read.Takes.ByName;
import dev.doublet.layout.read.Takes.Decimal;
import dev.doublet.layout.read.Takes.Each;
import dev.doublet.layout.read.Takes.Either;
import dev.doublet.layout.read.Takes.Keyed;
import dev.doublet.layout.read.Takes.Listed;
import dev.doublet.layout.read.Takes.Named;
import dev.doublet.layout.read.Takes.Text;
import dev.doublet.layout.read.Takes.Whole;
import dev.doublet.layout.read.Takes.Word;
import dev.doublet.rulebook.Fault;
import dev.doublet.source.Mention;
import dev.doublet.syntax.YamlNode;
import dev.doublet.syntax.YamlNode.Scalar;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;

/**
 * Every key of a layout file: the one list from which files are read, mistakes are explained, and
 * the schema and the page of keys are made. It is long because it is that list. Parts stand before
 * what they are part of.
 */
final class Keys {
  static final int MOST_LEDS = 65_535;
  static final int MOST_SERVO = 254;
  private static final int MOST_BYTES = 1 << 28;
  private static final Text ANY_NAME = new Text("a name");

  // How signals and heads are commanded.

  static final Key<By> BY =
      Key.of("by", words(List.of(By.values()), By::word), "What commands it.");
  static final Key<Scalar> BUS =
      Key.of(
          "bus",
          new Text("the name of a bus").using(Mention.Kind.BUS),
          "The bus; the first that speaks what `by` needs when left out.");
  private static final Takes<Integer> ONE_ADDRESS =
      new Whole(Accessory.LOWEST, Accessory.HIGHEST, Measure.NONE);
  static final Key<Integer> ADDRESS =
      Key.of(
          "address",
          ONE_ADDRESS,
          "Its address, or the first of several in a row; the next free one when left out.");
  static final Key<List<Integer>> ADDRESSES =
      Key.of(
          "addresses",
          new Listed<>(ONE_ADDRESS, 1, true, "a list of addresses"),
          "Its addresses where they do not follow one another, or those of its heads, top to bottom,"
              + " where those are commanded by themselves.");
  static final Key<Integer> BITS =
      Key.of(
          "bits",
          new Whole(1, 4, Measure.NONE),
          "How many addresses carry the number, for binary-coded; as few as will do when left"
              + " out.");
  static final Key<Boolean> ONE_IS =
      Key.of(
          "one-is",
          words("normal", true, "reverse", false),
          "Which state of an address counts 1; normal when left out.");
  static final Key<Boolean> LOW_BIT =
      Key.of(
          "low-bit",
          words("first", true, "last", false),
          "Which address counts least; the first when left out.");
  static final Key<Integer> SETTLE =
      Key.of(
          "settle",
          new Whole(0, Way.BinaryCoded.LONGEST_SETTLE, Measure.MILLISECONDS),
          "How long it waits after the last packet before it shows what they say, so that it passes"
              + " through no other aspect; 300 when left out, 0 for at once.");
  static final Key<List<Named<Scalar>>> VALUES =
      Key.of(
          "values",
          new ByName<>(
              new Whole(0, 255, Measure.NONE),
              new Text("the name of an aspect").using(Mention.Kind.ASPECT),
              "aspects by value"),
          "What each value calls up; places in the list of aspects when left out, or the numbers that"
              + " the aspects have, which must then be the same.");
  static final Key<Scalar> TOPIC =
      Key.of(
          "topic", new Text("a topic"), "Its topic; that of the bus and its name when left out.");
  static final Key<Boolean> PAYLOAD =
      Key.of(
          "payload",
          words("name", true, "number", false),
          "Whether a message holds the name or the number; the name when left out.");
  private static final Takes<Scalar> EVENT =
      new Text(
          "eight pairs of hex digits with dots between, such as 05.01.01.01.22.60.00.00",
          "[0-9A-Fa-f]{2}(\\.[0-9A-Fa-f]{2}){7}");
  static final Key<Scalar> FIRST_EVENT =
      Key.of("first-event", EVENT, "The event of number 0; the others follow.");
  static final Key<List<Named<Scalar>>> EVENTS =
      Key.of(
          "events",
          new ByName<>(ANY_NAME.using(Mention.Kind.ASPECT), EVENT, "events by aspect"),
          "An event for each aspect.");
  static final Key<Kind.Otherwise> OTHERWISE =
      Key.of(
          "otherwise",
          words("most-restrictive", Kind.Otherwise.MOST_RESTRICTIVE, "keep", Kind.Otherwise.KEEP),
          "What a value does that calls up nothing.");

  private static final List<Key<?>> COMMAND =
      of(
          BY,
          BUS,
          ADDRESS,
          ADDRESSES,
          BITS,
          ONE_IS,
          LOW_BIT,
          SETTLE,
          VALUES,
          TOPIC,
          PAYLOAD,
          FIRST_EVENT,
          EVENTS,
          OTHERWISE);

  // Heads, kinds and signals.

  static final Key<Scalar> TYPE =
      Key.of(
              "type",
              new Text("the name of a head").using(Mention.Kind.HEAD),
              "Its make in the rulebook.")
          .need();
  static final Key<List<Scalar>> SHOWS =
      Key.of(
              "shows",
              new Listed<>(
                  new Text("a display")
                      .using(Mention.Kind.RHYTHM, Mention.Kind.COLOUR, Mention.Kind.FIGURE),
                  1,
                  true,
                  "a list of displays"),
              "Its displays, the one it rests in first.")
          .need();
  static final Place HEAD =
      new Place(
          "a head",
          "A head commanded by itself.",
          join(of(TYPE, SHOWS, BY.need()), COMMAND.subList(1, COMMAND.size())));

  static final Key<Scalar> FORM =
      Key.of(
          "form",
          new Text("the name of a form").using(Mention.Kind.FORM),
          "Its form in the rulebook.");
  static final Key<List<YamlNode>> HEADS =
      Key.of(
          "heads",
          new Listed<>(
              new Either(
                  of(new Text("the name of a head").using(Mention.Kind.HEAD), new Keyed(HEAD)),
                  "names of heads"),
              1,
              false,
              "a list of heads"),
          "The make of head at each place, top to bottom.");
  static final Key<Double> LENS =
      Key.of(
          "lens",
          above(0, 1_000, Measure.MILLIMETRES),
          "Width of a lens at full size; that of the layout when left out, or else 213, and 162 on"
              + " dwarf forms.");
  static final Key<Double> MODEL_LENS =
      Key.of(
          "model-lens",
          above(0, 100, Measure.MILLIMETRES),
          "Width of a lens as it is on the model, in place of `lens`.");
  static final Key<Double> FIBRE =
      Key.of(
          "fibre",
          above(0, 20, Measure.MILLIMETRES),
          "Diameter of the fibre that ends in each lens, of which no more than that is seen.");

  /** Ratios by letter: NMRA S-1.2 (from memory). */
  static final Word<Double> SCALES =
      words(
          List.of("HO", "N", "O", "S", "TT", "Z"), List.of(87.1, 160.0, 48.0, 64.0, 120.0, 220.0));

  static final Decimal RATIO = above(0, 1_000, Measure.NONE);
  private static final Either RATIOS = new Either(of(SCALES, RATIO), "a letter or a number");
  static final Key<YamlNode> SCALE =
      Key.of(
          "scale",
          RATIOS,
          "The scale by letter (NMRA S-1.2), or its ratio, 87 for 1:87; HO when left out.");
  private static final Key<YamlNode> OWN_SCALE =
      Key.of(
          SCALE.name(),
          RATIOS,
          "The scale it is built in, where that is not the layout's, as on a branch of another.");
  static final Key<List<Scalar>> PLATES =
      Key.of(
          "plates",
          new Listed<>(
              new Text("the name of a plate").using(Mention.Kind.PLATE),
              0,
              true,
              "a list of plates"),
          "The plates it carries.");
  static final Takes<Double> HEIGHT = new Decimal(0.1, false, 30, Measure.METRES);
  static final Takes<List<Double>> HEIGHTS =
      new Listed<>(HEIGHT, 1, false, "a list of heights in metres");
  static final Key<YamlNode> MAST =
      Key.of(
          "mast",
          new Either(of(HEIGHT, HEIGHTS), "a height in metres, or a list of them"),
          "Metres at full size from the rail to the middle of the top head, or of each head from"
              + " top to bottom; what is common practice when left out.");
  static final Key<List<Scalar>> WIRED =
      Key.of(
          "wired",
          new Listed<>(
              new Text("the name of a place").using(Mention.Kind.PLACE),
              1,
              true,
              "a list of places"),
          "Its places in the order of the cable, when that is not top to bottom.");
  static final Key<List<Scalar>> ASPECTS =
      Key.of(
          "aspects",
          new Listed<>(
              new Text("the name of an aspect").using(Mention.Kind.ASPECT),
              1,
              true,
              "a list of aspects"),
          "What it may show; every aspect that its form shows when left out.");
  static final Key<Boolean> LIT =
      Key.of(
          "lit",
          words("always", false, "on-approach", true),
          "When it is lit; on approach is dark while its controller says that no train comes.");

  private static final Whole PERCENT = new Whole(1, 100, Measure.PERCENT);
  static final Key<Integer> OWN_BRIGHTNESS =
      Key.of(
          "brightness",
          PERCENT,
          "Percent of what its chain has, for a signal whose fibres lose less than others'; 100 when"
              + " left out.");
  static final Key<List<Named<Integer>>> LAMP_BRIGHTNESS =
      Key.of(
          "lamp-brightness",
          new ByName<>(ANY_NAME.using(Mention.Kind.PLACE), PERCENT, "percents by lamp"),
          "Percent of what the signal has for a head (`top`), lamps of a name (`yellow`) or one lamp"
              + " (`top yellow`); of several, the narrowest.");

  static final Key<Scalar> CHIP_OF =
      Key.of(
          "chip",
          new Text("the name of a kind of chip").using(Mention.Kind.CHIP),
          "The kind of chip whose outputs light its lamps; each has an LED of its own when left"
              + " out.");
  static final Key<List<List<Scalar>>> OUTPUTS =
      Key.of(
          "outputs",
          new Listed<>(
              new Listed<>(
                  new Text("the name of a lamp").using(Mention.Kind.PLACE),
                  1,
                  false,
                  "a list of lamps"),
              1,
              false,
              "lists of lamps"),
          "A list of lamps for each chip (`red`, `top red`, or `none`), by output; lamps of no list"
              + " have LEDs, and all have outputs when left out.");

  static final Key<List<Integer>> SERVOS =
      Key.of(
          "servos",
          new Listed<>(new Whole(0, MOST_SERVO, Measure.NONE), 1, true, "a list of servo channels"),
          "The servo channel of its controller that moves each of its arms, top to bottom, but for those"
              + " of `motors`; the table moves none when left out.");
  static final Key<List<Named<List<Integer>>>> PULSES =
      Key.of(
          "pulses",
          new ByName<>(
              ANY_NAME.using(Mention.Kind.PLACE),
              new Listed<>(
                  new Whole(Servo.LEAST, Servo.MOST, Measure.MICROSECONDS),
                  1,
                  false,
                  "a list of microseconds"),
              "pulses by arm"),
          "The servo's pulse for each position of an arm (`home: [1100, 1750]`), as the arm moves;"
              + " evenly from 1000 to 2000 when left out.");
  static final Key<Integer> TRAVEL =
      Key.of(
          "travel",
          new Whole(Servo.QUICKEST, Servo.SLOWEST, Measure.MILLISECONDS),
          "How long its servos take from one end to the other, at most; 1000 when left out.");

  static final Key<List<Named<Integer>>> MOTORS =
      Key.of(
          "motors",
          new ByName<>(
              ANY_NAME.using(Mention.Kind.PLACE),
              new Whole(0, MOST_SERVO, Measure.NONE),
              "channels by arm"),
          "The channel of each arm (`home: 3`) that is moved not by a servo but by a motor that"
              + " keeps where it stands, at one of two ends.");
  static final Key<Integer> COIL_TIME =
      Key.of(
          "coil-time",
          new Whole(Servo.LEAST_COIL_TIME, Servo.MOST_COIL_TIME, Measure.MILLISECONDS),
          "How long current flows in a motor's coil at each move; 100 when left out.");

  private static final List<Key<?>> BUILT =
      join(
          of(
              FORM,
              HEADS,
              OWN_SCALE,
              LENS,
              MODEL_LENS,
              FIBRE,
              PLATES,
              MAST,
              WIRED,
              ASPECTS,
              LIT,
              OWN_BRIGHTNESS,
              LAMP_BRIGHTNESS,
              CHIP_OF,
              OUTPUTS,
              SERVOS,
              PULSES,
              TRAVEL,
              MOTORS,
              COIL_TIME),
          COMMAND);
  static final Place KIND = new Place("a kind of signal", "What signals of a kind say.", BUILT);

  static final Key<Scalar> NAME =
      Key.of(
              "name",
              ANY_NAME.declaring(Mention.Kind.SIGNAL),
              "What you call it, once in the layout; \"J1 to J40\" are forty signals alike, whose"
                  + " addresses and channels go on from the first.")
          .need();
  static final Key<Scalar> KIND_OF =
      Key.of(
          "kind",
          new Text("the name of a kind").using(Mention.Kind.KIND),
          "Its kind; that of the signal before when left out.");
  static final Key<Integer> LED =
      Key.of(
          "led",
          new Whole(1, MOST_LEDS, Measure.NONE),
          "Its first LED, counted from 1 at the controller; the next when left out.");
  static final Key<Integer> AWG =
      Key.of(
          "awg", new Whole(10, 30, Measure.GAUGE), "The gauge of its wires, or say `square-mm`.");
  static final Key<Double> SQUARE_MM =
      Key.of(
          "square-mm",
          new Decimal(0.05, false, 6, Measure.SQUARE_MILLIMETRES),
          "The copper of each wire, or say `awg`.");
  static final Key<Double> METRES =
      Key.of(
          "metres",
          above(0, 1_000, Measure.METRES),
          "From the supply to the last LED, or leave it to the `metres` of signals.");
  private static final Key<Double> LENGTH =
      Key.of(METRES.name(), above(0, 1_000, Measure.METRES), "From end to end.").need();
  static final Place CABLE =
      new Place(
          "a cable",
          "The cable along a chain, one wire out and one like it back, such as"
              + " {awg: 24, metres: 6}.",
          of(AWG, SQUARE_MM, METRES));

  static final Place WIRE =
      new Place(
          "a wire of its own",
          "Wires out and back, such as {awg: 18, metres: 2}.",
          of(AWG, SQUARE_MM, LENGTH));

  static final Key<Double> METRES_TO =
      Key.of(
          "metres",
          above(0, 1_000, Measure.METRES),
          "Of cable from what stands before it, or from the cable's start; on the same place when"
              + " left out.");
  static final Key<YamlNode.Mapping> LEAD =
      Key.of("lead", new Keyed(WIRE), "Its own wires from the cable, or from its board's socket.");
  static final Key<Scalar> NOTE =
      Key.of(
          "note",
          new Text("a text"),
          "What to know of it on the layout, which `answers`, `sheet` and `wiring` repeat.");
  static final Key<Boolean> FIXED =
      Key.of(
          "offset",
          words("of-module", false, "none", true),
          "Whether its DCC addresses move with the offset of a module that is carried to a meet;"
              + " of-module when left out, none for those that stay as they are said.");
  static final Place SIGNAL =
      new Place(
          "a signal",
          "A signal, in the order of the cable.",
          join(of(NAME, KIND_OF, LED, METRES_TO, LEAD, FIXED, NOTE), BUILT));

  static final Key<Integer> GAP =
      Key.of("gap", new Whole(1, MOST_LEDS, Measure.NONE), "How many LEDs are passed over.").need();
  static final Place GAP_OF = new Place("a gap", "LEDs passed over.", of(GAP));

  static final Key<Scalar> SOCKET_BOARD = Key.of("board", ANY_NAME, "What you call it.").need();
  static final Key<Integer> SOCKETS =
      Key.of("sockets", new Whole(1, 256, Measure.NONE), "How many signals can be plugged in.")
          .need();
  static final Place SOCKET_BOARD_OF =
      new Place(
          "a board with sockets",
          "A board on the cable, which the signals after it are plugged into.",
          of(SOCKET_BOARD, SOCKETS, METRES_TO));

  // Chains and controllers.

  static final Key<Double> VOLTS = Key.of("volts", volts(), "Its voltage.").need();
  static final Key<Double> AMPS =
      Key.of("amps", above(0, 100, Measure.AMPERES), "What it can give.").need();
  static final Place SUPPLY =
      new Place("a supply", "What feeds chains, such as {volts: 5, amps: 4}.", of(VOLTS, AMPS));

  static final Key<Scalar> LEDS_OF =
      Key.of(
          "leds",
          new Text("the name of a kind of LED").using(Mention.Kind.LED),
          "Its kind of LED; the first when left out.");
  static final Key<Integer> BRIGHTNESS =
      Key.of("brightness", PERCENT, "Percent of full drive; 100 when left out.");
  static final Key<Integer> NIGHT =
      Key.of(
          "night",
          PERCENT,
          "Percent of full drive by night, at most the brightness; the same when left out.");
  static final Key<YamlNode> SUPPLY_OF =
      Key.of(
          "supply",
          new Either(
              of(new Text("the name of a supply").using(Mention.Kind.SUPPLY), new Keyed(SUPPLY)),
              "the name of a supply, or volts and amps"),
          "What feeds it: volts and amps, or the name of a supply that chains share.");
  static final Key<YamlNode.Mapping> CABLE_OF =
      Key.of("cable", new Keyed(CABLE), "The cable along it.");
  static final Whole FEED_LED = new Whole(0, MOST_LEDS, Measure.NONE);
  static final Key<Integer> FEED_AT =
      Key.of("at", FEED_LED, "The LED where power is led in, from 1; 0 is the cable's start.")
          .need();
  static final Key<YamlNode.Mapping> FEED_WIRE =
      Key.of("wire", new Keyed(WIRE), "Its own wires from the supply; none are counted without.");
  static final Key<YamlNode> FEED_SUPPLY =
      Key.of(
          SUPPLY_OF.name(),
          SUPPLY_OF.takes(),
          "Another supply, which feeds the LEDs from there on: the wire of its volts is cut before"
              + " that LED, and ground goes through.");
  static final Place FEED =
      new Place("a feed", "Where power is led in.", of(FEED_AT, FEED_WIRE, FEED_SUPPLY));
  static final Key<List<YamlNode>> FEEDS =
      Key.of(
          "feeds",
          new Listed<>(
              new Either(of(FEED_LED, new Keyed(FEED)), "an LED, or a feed"),
              1,
              false,
              "a list such as [0, 40]"),
          "LEDs at which power is led in, counted from 1; 0 is the cable's start, and all there is"
              + " when left out.");
  static final Key<List<Optional<YamlNode.Mapping>>> SIGNALS =
      Key.of(
              "signals",
              new Each<>(
                  new Keyed(of(SIGNAL, GAP_OF, SOCKET_BOARD_OF), "signals such as {name: W1}"),
                  1,
                  "a list of signals"),
              "Its signals, nearest the controller first.")
          .need();
  static final Place CHAIN =
      new Place(
          "a chain",
          "A chain of LEDs.",
          of(LEDS_OF, BRIGHTNESS, NIGHT, SUPPLY_OF, CABLE_OF, FEEDS, SIGNALS));

  private static final Takes<Integer> MEMORY = new Whole(0, MOST_BYTES, Measure.BYTES);
  static final Key<Board> BOARD =
      Key.of(
          "board",
          words(Board.ALL, Board::word),
          "Which board it is: its memory where that is not said, and how fast it works LEDs out.");
  static final Key<Integer> FLASH =
      Key.of(
              "flash",
              MEMORY,
              "Bytes of program memory left for the table; what its `board` leaves when left out.")
          .needUnless(BOARD);
  static final Key<Integer> RAM =
      Key.of(
              "ram",
              MEMORY,
              "Bytes of memory left for the reader and the LED buffers; what its `board` leaves when"
                  + " left out.")
          .needUnless(BOARD);
  static final Key<List<Named<YamlNode.Mapping>>> CHAINS =
      Key.of(
              "chains",
              new ByName<>(
                  ANY_NAME.declaring(Mention.Kind.CHAIN), new Keyed(CHAIN), "chains by name"),
              "Chains of LEDs by name.")
          .need();
  static final Place CONTROLLER =
      new Place("a controller", "A controller.", of(BOARD, FLASH, RAM, CHAINS));

  // Kinds of LED.

  private static final Takes<Double> PART_OF_LIGHT = above(0, 1, Measure.NONE);
  static final Key<Double> X = Key.of("x", PART_OF_LIGHT, "CIE 1931 x.").need();
  static final Key<Double> Y = Key.of("y", PART_OF_LIGHT, "CIE 1931 y.").need();
  static final Key<Double> MCD =
      Key.of("mcd", above(0, 100_000, Measure.MILLICANDELA), "Its intensity at full drive.").need();
  static final Place DIE =
      new Place(
          "a measured die",
          "A die at full drive, measured by yourself, such as {x: 0.69, y: 0.31, mcd: 400}.",
          of(X, Y, MCD));

  /** The dies by channel. */
  static final Map<Channel, Key<YamlNode.Mapping>> DIES = dies();

  static final Place MEASURED =
      new Place(
          "the measured dies of an LED",
          "Dies measured by yourself, in place of the maker's bins.",
          List.copyOf(DIES.values()));

  private static final double MOST_MILLIAMPS = 1_000;
  static final Key<Double> CHANNEL =
      Key.of(
          "channel",
          above(0, MOST_MILLIAMPS, Measure.MILLIAMPERES),
          "Of one channel fully driven; 20 when left out.");
  static final Key<Double> REST =
      Key.of(
          "rest",
          new Decimal(0, false, MOST_MILLIAMPS, Measure.MILLIAMPERES),
          "Of a dark LED; 1 when left out.");
  static final Place MILLIAMPS =
      new Place("the current of an LED", "The current of an LED.", of(CHANNEL, REST));

  static final Key<LedFamily> FAMILY =
      Key.of(
          "family",
          words(LedFamily.published(), LedFamily::name),
          "What its dies shine, by wire protocol, channels and package; a plain one of its order"
              + " when left out.");
  static final Key<Scalar> ORDER =
      Key.of(
          "order",
          new Text(
              "the letters R, G and B, or R, G, B and W, in the order in which the LED takes its"
                  + " bytes, such as GRB",
              "(?!.*(.).*\\1)([RGB]{3}|[RGBW]{4})"),
          "Its channels in the order in which it takes its bytes; GRB or GRBW when left out.");
  static final Key<YamlNode.Mapping> MEASURED_OF =
      Key.of("measured", new Keyed(MEASURED), MEASURED.help());
  static final Key<YamlNode.Mapping> MILLIAMPS_OF =
      Key.of("milliamps", new Keyed(MILLIAMPS), MILLIAMPS.help());
  static final Key<Integer> LATCH =
      Key.of(
          "latch",
          new Whole(1, 100_000, Measure.MICROSECONDS),
          "How long the line rests before the LEDs take what was sent; 280 when left out.");
  static final Key<Double> MINIMUM_VOLTS =
      Key.of("minimum-volts", volts(), "The least supply at which it works; 3.7 when left out.");
  static final Key<Double> MAXIMUM_VOLTS =
      Key.of(
          "maximum-volts",
          volts(),
          "The largest supply that it bears; 5.3, or 5.5 for four channels, when left out.");
  static final Key<List<Named<List<Integer>>>> COLOURS =
      Key.of(
          "colours",
          new ByName<>(
              ANY_NAME.using(Mention.Kind.COLOUR),
              new Listed<>(
                  new Whole(0, 255, Measure.NONE), 1, false, "a list of numbers from 0 to 255"),
              "drives by colour"),
          "Drive of red, green, blue and perhaps white, by colour.");
  static final Key<Boolean> STRENGTH =
      Key.of(
          "strength",
          words("full", false, "even", true),
          "Whether colours are sent at full drive, or all as weak as the weakest; full when left"
              + " out.");
  static final Place LEDS =
      new Place(
          "a kind of LED",
          "A kind of LED.",
          of(
              FAMILY,
              ORDER,
              MEASURED_OF,
              MILLIAMPS_OF,
              LATCH,
              MINIMUM_VOLTS,
              MAXIMUM_VOLTS,
              COLOURS,
              STRENGTH));

  // Kinds of chip.

  static final Key<Double> FORWARD_VOLTS =
      Key.of(
          "volts",
          above(0, 10, Measure.VOLTS),
          "Its forward voltage, from which resistors follow.");
  static final Key<Double> LAMP_MILLIAMPS =
      Key.of(
          "milliamps",
          above(0, MOST_MILLIAMPS, Measure.MILLIAMPERES),
          "What it is to have, by a resistor where the output gives more; all of that when left"
              + " out.");
  static final Key<YamlNode.Mapping> LIGHT_OF =
      Key.of(
          "light",
          new Keyed(DIE),
          "What it shines, by its data sheet or measured; its colour is not judged when left out.");
  static final Place CHIP_LAMP =
      new Place(
          "an LED at an output",
          "An ordinary LED at an output, such as {volts: 2, milliamps: 5}.",
          of(FORWARD_VOLTS, LAMP_MILLIAMPS, LIGHT_OF));
  static final Key<Double> OUTPUT =
      Key.of(
          "output",
          above(0, MOST_MILLIAMPS, Measure.MILLIAMPERES),
          "Of one output fully driven; 20 when left out.");
  static final Key<Double> CHIP_REST =
      Key.of(
          "rest",
          new Decimal(0, false, MOST_MILLIAMPS, Measure.MILLIAMPERES),
          "Of the chip itself; 1 when left out.");
  static final Place CHIP_MILLIAMPS =
      new Place("the current of a chip", "The current of a chip.", of(OUTPUT, CHIP_REST));
  static final Key<YamlNode.Mapping> CHIP_MILLIAMPS_OF =
      Key.of("milliamps", new Keyed(CHIP_MILLIAMPS), CHIP_MILLIAMPS.help());
  static final Key<List<Scalar>> CHIP_OUTPUTS =
      Key.of(
          "outputs",
          new Listed<>(ANY_NAME, 1, true, "a list of outputs"),
          "Its outputs in the order in which it takes their bytes, as many as LEDs of its chain have"
              + " channels; 1, 2 and 3 when left out.");
  static final Key<List<Named<YamlNode.Mapping>>> CHIP_LAMPS =
      Key.of(
          "lamps",
          new ByName<>(ANY_NAME.using(Mention.Kind.COLOUR), new Keyed(CHIP_LAMP), "LEDs by colour"),
          "The ordinary LEDs at its outputs, by the colour that they show.");
  static final Place CHIP =
      new Place(
          "a kind of chip",
          "A kind of driver chip: one place of a chain, whose outputs hold the current of an ordinary"
              + " LED each.",
          of(CHIP_OUTPUTS, CHIP_MILLIAMPS_OF, CHIP_LAMPS));

  // Buses.

  /** What buses speak, by which their places are told apart. */
  static final Word<Bus.Speaks> LANGUAGES =
      words(of("dcc", "mqtt", "openlcb"), of(Bus.Speaks.DCC, Bus.Speaks.MQTT, Bus.Speaks.OPENLCB));

  static final Key<Bus.Speaks> SPEAKS = Key.of("speaks", LANGUAGES, "What travels on it.").need();

  static final Key<Integer> FIRST_DECODER =
      Key.of(
          "first-decoder",
          words("0", 0, "1", 1),
          "The decoder that answers to address 1; 1 when left out.");
  static final Key<Integer> ASPECT_BITS =
      Key.of(
          "aspect-bits",
          words("5", 5, "8", 8),
          "How many bits an aspect's number travels in; 5 when left out.");
  static final Place DCC_BUS =
      new Place(
          "a DCC bus",
          "A bus of DCC accessory packets.",
          of(speaks("dcc", Bus.Speaks.DCC), FIRST_DECODER, ASPECT_BITS));
  static final Key<Scalar> TOPICS =
      Key.of("topics", new Text("a topic"), "What stands before every signal's name.");
  static final Place MQTT_BUS =
      new Place(
          "an MQTT bus", "A bus of MQTT messages.", of(speaks("mqtt", Bus.Speaks.MQTT), TOPICS));
  static final Place OPENLCB_BUS =
      new Place(
          "an OpenLCB bus", "A bus of OpenLCB events.", of(speaks("openlcb", Bus.Speaks.OPENLCB)));

  // The layout.

  private static final Takes<Double> PRICE = new Decimal(0, false, 1_000_000, Measure.NONE);
  static final Key<Scalar> CURRENCY =
      Key.of("currency", new Text("a word or sign"), "The currency's name or sign.");
  static final Key<Double> LED_PRICE = Key.of("led", PRICE, "One LED.");
  static final Key<Double> PLATE_PRICE = Key.of("plate", PRICE, "One plate.");
  static final Key<Double> METRE_PRICE = Key.of("metre", PRICE, "One metre of cable.");
  static final Key<List<Named<Double>>> HEAD_PRICES =
      Key.of(
          "head",
          new ByName<>(ANY_NAME.using(Mention.Kind.HEAD), PRICE, "prices by make of head"),
          "One head, by make.");
  static final Place PRICES =
      new Place(
          "a list of prices",
          "What parts cost, each in one currency.",
          of(CURRENCY, LED_PRICE, PLATE_PRICE, METRE_PRICE, HEAD_PRICES));

  static final Key<Scalar> CHECK =
      Key.of(
              "check",
              new Text("the name of a finding", "", FindingNames.ALL),
              "The name in square brackets below the warning.")
          .need();
  static final Key<List<Scalar>> OF =
      Key.of(
              "of",
              new Listed<>(
                  new Text("a name").using(Mention.Kind.values()), 1, true, "a list of names"),
              "All that the warning is about: signals, or a controller and a chain, or a kind of"
                  + " LED and colours.")
          .need();
  static final Key<Scalar> BECAUSE =
      Key.of("because", new Text("a reason"), "Why it may stay.").need();
  static final Place ACCEPTANCE =
      new Place("an acceptance", "A warning that may stay.", of(CHECK, OF, BECAUSE));

  static final Key<Scalar> TITLE = Key.of("layout", ANY_NAME, "The layout's name.").need();
  static final Key<Scalar> RULEBOOK =
      Key.of(
              "rulebook",
              new Text("the path of an .aspects file"),
              "The .aspects file, as seen from the folder of this file.")
          .need();

  static final Key<Double> VIEWING =
      Key.of(
          "viewing",
          above(0, 1_000, Measure.METRES),
          "From the eye to the signals; 1 when left out.");
  static final Key<Double> LAMP_SPACING =
      Key.of(
          "lamp-spacing",
          above(0, 10_000, Measure.MILLIMETRES),
          "Between neighbouring lamps of a head, at full size; 300 when left out.");
  static final Key<List<Eye>> EYES =
      Key.of(
          "eyes",
          new Listed<>(
              words(of("deutan", "protan", "tritan"), of(Eye.DEUTAN, Eye.PROTAN, Eye.TRITAN)),
              0,
              true,
              "a list of eyes"),
          "Eyes for which colours must differ, besides normal ones.");
  static final Key<List<Named<YamlNode.Mapping>>> BUSES =
      Key.of(
          "buses",
          new ByName<>(
              ANY_NAME.declaring(Mention.Kind.BUS),
              new Keyed(of(DCC_BUS, MQTT_BUS, OPENLCB_BUS), "keys with values"),
              "buses by name"),
          "Buses by name; one DCC bus when left out.");
  static final Key<List<Named<YamlNode.Mapping>>> ALL_LEDS =
      Key.of(
          "leds",
          new ByName<>(
              ANY_NAME.declaring(Mention.Kind.LED), new Keyed(LEDS), "kinds of LED by name"),
          "Kinds of LED by name; one of order GRB when left out.");
  static final Key<List<Named<YamlNode.Mapping>>> CHIPS =
      Key.of(
          "chips",
          new ByName<>(
              ANY_NAME.declaring(Mention.Kind.CHIP), new Keyed(CHIP), "kinds of chip by name"),
          "Kinds of driver chip by name.");
  static final Key<List<Named<YamlNode.Mapping>>> SUPPLIES =
      Key.of(
          "supplies",
          new ByName<>(
              ANY_NAME.declaring(Mention.Kind.SUPPLY), new Keyed(SUPPLY), "supplies by name"),
          "Supplies by name, for chains to share.");
  static final Key<Boolean> NUMBERING =
      Key.of(
          "numbering",
          words("automatic", false, "pinned", true),
          "Whether addresses and values that are not said follow from what is, or are an error;"
              + " automatic when left out, and `doublet pin` writes them all.");
  static final Key<YamlNode.Mapping> PRICES_OF = Key.of("prices", new Keyed(PRICES), PRICES.help());
  static final Key<List<Optional<YamlNode.Mapping>>> ACCEPT =
      Key.of(
          "accept",
          new Each<>(
              new Keyed(of(ACCEPTANCE), "acceptances such as {check: …, of: […], because: …}"),
              0,
              "a list of acceptances"),
          "Warnings that may stay, each with the reason.");
  static final Key<List<Fault>> COUNT_AS_ERRORS =
      Key.of(
          "count-as-errors",
          new Listed<>(words(List.of(Fault.values()), Fault::words), 0, true, "a list of faults"),
          "Faults whose hazards are errors here, whatever they are in the rulebook.");
  static final Key<List<Named<YamlNode.Mapping>>> KINDS =
      Key.of(
          "kinds",
          new ByName<>(
              ANY_NAME.declaring(Mention.Kind.KIND), new Keyed(KIND), "kinds of signal by name"),
          "What signals have in common, by name.");
  static final Key<Scalar> MODULE_LAYOUT =
      Key.of(
              "layout",
              new Text("the path of a layout"),
              "Its layout file, as seen from the folder of this file.")
          .need();
  static final Key<Scalar> OWNER = Key.of("owner", ANY_NAME, "Whose it is.");
  static final Key<Integer> OFFSET =
      Key.of(
          "offset",
          new Whole(0, Accessory.HIGHEST - 1, Measure.NONE),
          "What is added to its DCC addresses here; 0 when left out.");
  static final Key<Scalar> PREFIX =
      Key.of("prefix", ANY_NAME, "What stands before the names of its signals here.");
  static final Place MODULE =
      new Place(
          "a module",
          "A layout that this one uses, such as a module that is carried to a meet.",
          of(MODULE_LAYOUT, OWNER, OFFSET, PREFIX));
  static final Key<List<Named<YamlNode.Mapping>>> USES =
      Key.of(
          "uses",
          new ByName<>(ANY_NAME, new Keyed(MODULE), "modules by name"),
          "Layouts that this one uses, by name: modules with their own controllers.");
  static final Key<List<Named<YamlNode.Mapping>>> CONTROLLERS =
      Key.of(
              "controllers",
              new ByName<>(
                  new Text(
                          "letters, digits and hyphens: its table's file is named after it",
                          "[A-Za-z0-9][A-Za-z0-9_-]{0,63}")
                      .declaring(Mention.Kind.CONTROLLER),
                  new Keyed(CONTROLLER),
                  "controllers by name"),
              "Controllers by name; their tables' files are named after them.")
          .needUnless(USES);
  static final Place LAYOUT =
      new Place(
          "a layout",
          "What stands on a model layout: buses, controllers, chains of LEDs, and signals.",
          of(
              TITLE,
              RULEBOOK,
              NUMBERING,
              SCALE,
              VIEWING,
              LAMP_SPACING,
              LENS,
              MODEL_LENS,
              EYES,
              OTHERWISE,
              BUSES,
              ALL_LEDS,
              CHIPS,
              SUPPLIES,
              PRICES_OF,
              ACCEPT,
              COUNT_AS_ERRORS,
              KINDS,
              USES,
              CONTROLLERS));

  /** Every place, the whole layout first. */
  static final List<Place> PLACES =
      of(
          LAYOUT,
          DCC_BUS,
          MQTT_BUS,
          OPENLCB_BUS,
          LEDS,
          MEASURED,
          DIE,
          MILLIAMPS,
          CHIP,
          CHIP_MILLIAMPS,
          CHIP_LAMP,
          SUPPLY,
          PRICES,
          ACCEPTANCE,
          KIND,
          MODULE,
          CONTROLLER,
          CHAIN,
          CABLE,
          WIRE,
          FEED,
          SIGNAL,
          HEAD,
          GAP_OF,
          SOCKET_BOARD_OF);

  /**
   * Keys that say which signal it is and where it hangs and listens: what a signal built like the
   * one before does not take over.
   */
  static final Set<Key<?>> WHERE =
      Set.of(
          NAME,
          KIND_OF,
          LED,
          METRES_TO,
          LEAD,
          FIXED,
          NOTE,
          ADDRESS,
          ADDRESSES,
          TOPIC,
          FIRST_EVENT,
          EVENTS);

  private Keys() {}

  /** Keys that say how a signal or head is commanded. */
  static List<Key<?>> ofCommands() {
    return COMMAND;
  }

  private static Decimal volts() {
    return new Decimal(1, false, 60, Measure.VOLTS);
  }

  private static Decimal above(double least, double most, Measure measure) {
    return new Decimal(least, true, most, measure);
  }

  private static Map<Channel, Key<YamlNode.Mapping>> dies() {
    Map<Channel, Key<YamlNode.Mapping>> dies = new EnumMap<>(Channel.class);
    for (Channel channel : Channel.values()) {
      dies.put(channel, Key.of(channel.toString(), new Keyed(DIE), "Its " + channel + " die."));
    }
    return Collections.unmodifiableMap(dies);
  }

  private static Key<?> speaks(String word, Bus.Speaks speaks) {
    return Key.of(SPEAKS.name(), words(of(word), of(speaks)), SPEAKS.help()).need();
  }

  private static <T> Word<T> words(String one, T oneMeans, String other, T otherMeans) {
    return words(List.of(one, other), List.of(oneMeans, otherMeans));
  }

  private static <T> Word<T> words(List<T> meanings, Function<T, String> word) {
    return words(meanings.stream().map(word).toList(), meanings);
  }

  private static <T> Word<T> words(List<String> words, List<T> meanings) {
    Map<String, T> all = new LinkedHashMap<>();
    for (int i = 0; i < words.size(); i++) {
      all.put(words.get(i), meanings.get(i));
    }
    return new Word<>(Collections.unmodifiableMap(all));
  }

  private static List<Key<?>> join(List<Key<?>> first, List<Key<?>> second) {
    List<Key<?>> all = new ArrayList<>(first);
    all.addAll(second);
    return List.copyOf(all);
  }
}
