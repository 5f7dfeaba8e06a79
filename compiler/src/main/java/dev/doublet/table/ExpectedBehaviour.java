package dev.doublet.table;

import dev.doublet.bus.Accessory;
import dev.doublet.layout.Answer;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Command;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Feed;
import dev.doublet.layout.Glow;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Kind.Otherwise;
import dev.doublet.layout.Servo;
import dev.doublet.layout.State;
import dev.doublet.layout.Unit;
import dev.doublet.layout.Way;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Rhythm;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;

/**
 * What a controller must do, straight from the layout: no table, and nothing of how one is made. It
 * holds state, as {@link TableReader} does. It is long because it shares none of this with what
 * makes or reads tables.
 */
final class ExpectedBehaviour {
  private static final int EVERY_UNIT = 2047;
  private static final long NEVER = -1;

  private final Controller controller;
  private final List<Unit> units;
  private final Kind[] kinds;
  private final int[] buses;
  private final int[] states;
  private final Boolean[][] normal;
  private final int[] last;
  private final long[] heard;
  private final boolean[] trainComes;
  private boolean night;
  private final int[][] addresses;
  private final Map<Integer, List<Integer>> at = new TreeMap<>();
  private final Map<String, List<Integer>> onTopic = new HashMap<>();
  private final Map<Long, Set<Integer>> onEvent = new HashMap<>();
  private final List<Integer> everyUnit;
  private final List<Bus> busList;
  private final Map<String, Rhythm> rhythms = new HashMap<>();
  private final SortedSet<Sent> colours;

  ExpectedBehaviour(Rulebook book, Controller controller) {
    this.controller = controller;
    this.units = inOrder(controller);
    this.kinds = units.stream().map(Unit::kind).toArray(Kind[]::new);
    this.busList = used(controller);
    this.buses = units.stream().mapToInt(u -> busList.indexOf(u.command().bus())).toArray();
    this.states = units.stream().mapToInt(u -> u.kind().rest()).toArray();
    this.trainComes = new boolean[units.size()];
    Arrays.fill(trainComes, true);
    this.heard = new long[units.size()];
    Arrays.fill(heard, NEVER);
    this.addresses = units.stream().map(ExpectedBehaviour::binary).toArray(int[][]::new);
    this.normal =
        Arrays.stream(addresses).map(a -> new Boolean[a.length]).toArray(Boolean[][]::new);
    this.last = new int[units.size()];
    book.rhythms().forEach(r -> rhythms.put(r.name(), r));
    this.everyUnit = IntStream.range(0, kinds.length).boxed().toList();
    for (int unit : everyUnit) {
      Arrays.stream(addresses[unit])
          .distinct()
          .forEach(address -> at.computeIfAbsent(address, a -> new ArrayList<>()).add(unit));
      Command command = units.get(unit).command();
      onTopic.computeIfAbsent(command.topic(), t -> new ArrayList<>()).add(unit);
      command
          .events()
          .forEach(event -> onEvent.computeIfAbsent(event, e -> new TreeSet<>()).add(unit));
    }
    this.colours = sentColours();
  }

  /** Along each chain, chains as the layout has them. */
  private static List<Unit> inOrder(Controller controller) {
    List<Unit> order = new ArrayList<>(controller.units());
    order.sort(
        (one, other) -> {
          int chains = Integer.compare(one.chain().index(), other.chain().index());
          int leds = Integer.compare(one.led(), other.led());
          return chains != 0 ? chains : leds != 0 ? leds : one.name().compareTo(other.name());
        });
    return order;
  }

  /** Those that some signal listens to, by name. */
  private static List<Bus> used(Controller controller) {
    List<Bus> buses = new ArrayList<>();
    for (Unit unit : controller.units()) {
      if (!buses.contains(unit.command().bus())) {
        buses.add(unit.command().bus());
      }
    }
    buses.sort((one, other) -> one.name().compareTo(other.name()));
    return buses;
  }

  /** Lets time pass: what has waited long enough is shown. */
  void passes(long now) {
    for (int unit = 0; unit < heard.length; unit++) {
      if (heard[unit] != NEVER && now - heard[unit] >= kinds[unit].way().settle()) {
        heard[unit] = NEVER;
        callUp(unit);
      }
    }
  }

  private static int[] binary(Unit unit) {
    int firstDecoder = unit.command().bus().firstDecoder();
    return unit.command().addresses().stream()
        .mapToInt(address -> Accessory.binary(address, firstDecoder))
        .toArray();
  }

  List<Unit> units() {
    return units;
  }

  /** The binary addresses of a unit. */
  int[] addresses(int unit) {
    return addresses[unit];
  }

  /** The place of every unit's state; not to be written to. */
  int[] states() {
    return states;
  }

  /** The buses, in the order of the table. */
  List<Bus> buses() {
    return busList;
  }

  /** Takes a command, as all that follow; returns how many units it is for. */
  int extended(int bus, int address, int value) {
    int taken = 0;
    for (int unit : address == EVERY_UNIT ? everyUnit : at.getOrDefault(address, List.of())) {
      if (hears(unit, bus, Way.AspectNumber.class)) {
        show(unit, value < 1 << busList.get(bus).aspectBits() ? stateFor(unit, value) : -1);
        taken++;
      }
    }
    return taken;
  }

  int basic(int bus, int address, boolean set, long now) {
    int taken = 0;
    for (int unit : at.getOrDefault(address, List.of())) {
      if (!hears(unit, bus, Way.Switched.class)) {
        continue;
      }
      for (int i = 0; i < addresses[unit].length; i++) {
        if (addresses[unit][i] != address) {
          continue;
        }
        normal[unit][i] = set;
        last[unit] = i;
        if (kinds[unit].way().settle() > 0) {
          heard[unit] = now;
        } else {
          callUp(unit);
        }
      }
      taken++;
    }
    return taken;
  }

  /** Does what its addresses say as they are set. */
  private void callUp(int unit) {
    ((Way.Switched) kinds[unit].way())
        .value(normal[unit], last[unit])
        .ifPresent(value -> show(unit, stateFor(unit, value)));
  }

  int topic(int bus, String topic, String payload) {
    int taken = 0;
    for (int unit : onTopic.getOrDefault(topic, List.of())) {
      Kind kind = kinds[unit];
      if (hears(unit, bus, Way.Topic.class)) {
        boolean number = folded(payload).matches("0*[0-9]{1,3}");
        if (((Way.Topic) kind.way()).byName()) {
          show(unit, named(kind, payload));
        } else {
          show(unit, number ? stateFor(unit, Integer.parseInt(folded(payload))) : -1);
        }
        taken++;
      }
    }
    return taken;
  }

  /** A name in the case and without the white space that do not count. */
  private static String folded(String name) {
    Matcher capitals =
        Pattern.compile("[A-Z]").matcher(name.replaceAll("^[ \\x09-\\x0D]+|[ \\x09-\\x0D]+$", ""));
    return capitals.replaceAll(found -> found.group().toLowerCase(Locale.ROOT));
  }

  private static int named(Kind kind, String name) {
    for (int state = 0; state < kind.states().size(); state++) {
      if (folded(kind.states().get(state).name()).equals(folded(name))) {
        return state;
      }
    }
    return -1;
  }

  int event(int bus, long event) {
    int taken = 0;
    for (int unit : onEvent.getOrDefault(event, Set.of())) {
      if (hears(unit, bus, Way.Event.class)) {
        states[unit] = units.get(unit).command().events().indexOf(event);
        taken++;
      }
    }
    return taken;
  }

  /**
   * For each LED of a unit, whether it glows as a filament does, and the number of the colour that
   * it passes, colours counted from 1 in alphabetical order and each from bright to dim, with the
   * bytes sent for it; none when all switch at once.
   */
  List<String> glows(int unit) {
    Chain chain = units.get(unit).chain();
    List<String> glows = new ArrayList<>();
    boolean chips = !kinds[unit].feeds().isEmpty();
    for (Glow glow : kinds[unit].glows()) {
      String passed = "0[]";
      Sent middle = new Sent(glow.middle(), share(unit, glows.size()));
      boolean led = kinds[unit].chip(glows.size()).isEmpty();
      if (led && colours.contains(middle) && chain.part().drive().get(glow.middle()) != null) {
        List<Integer> bytes = new ArrayList<>();
        for (byte sent : led(unit, glows.size(), Display.steady(glow.middle()), 0)) {
          bytes.add(Byte.toUnsignedInt(sent));
        }
        passed = 1 + colours.headSet(middle).size() + "" + bytes;
      }
      glows.add(glow.filament() + " " + passed);
    }
    if (glows.stream().allMatch("false 0[]"::equals)) {
      return List.of();
    }
    return chips ? eachChannel(unit, glows) : glows;
  }

  /** Beside chips each channel of an LED is told of. */
  private List<String> eachChannel(int unit, List<String> lamps) {
    List<String> all = new ArrayList<>();
    for (Feed feed : feeds(unit)) {
      boolean chip = feed.chip().isPresent();
      for (int i = 0; i < units.get(unit).chain().part().channels(); i++) {
        int lamp = feed.lamps().get(chip ? i : 0);
        all.add(lamp < 0 ? "false 0[]" : lamps.get(lamp));
      }
    }
    return all;
  }

  /**
   * All that a controller has to send: what its signals show, and what vanes have in their middle
   * before LEDs of several colours, if such LEDs can be driven for it.
   */
  private SortedSet<Sent> sentColours() {
    SortedSet<Sent> sent =
        new TreeSet<>(
            (one, other) -> {
              int names = one.look().compareTo(other.look());
              return names != 0 ? names : other.share() - one.share();
            });
    for (int unit : everyUnit) {
      Map<String, List<Integer>> drives = units.get(unit).chain().part().drive();
      for (int led = 0; led < kinds[unit].lamps(); led++) {
        if (kinds[unit].chip(led).isPresent()) {
          continue;
        }
        Set<String> own = new TreeSet<>();
        for (State state : kinds[unit].states()) {
          own.add(state.lit().get(led).look());
        }
        own.remove("dark");
        List<Glow> glows = kinds[unit].glows();
        if (own.size() > 1 && !glows.isEmpty() && drives.containsKey(glows.get(led).middle())) {
          own.add(glows.get(led).middle());
        }
        for (String look : own) {
          sent.add(new Sent(look, share(unit, led)));
        }
      }
    }
    return sent;
  }

  /** A colour, and how much of what its signal has an LED has of it. */
  private record Sent(String look, int share) {}

  private int share(int unit, int lamp) {
    List<Integer> lamps = units.get(unit).dimming().lamps();
    return lamps.isEmpty() ? 100 : lamps.get(lamp);
  }

  /** Each servo of the controller, in the order of its channels, with its unit. */
  SortedMap<Integer, Integer> servos() {
    SortedMap<Integer, Integer> servos = new TreeMap<>();
    for (int unit : everyUnit) {
      units.get(unit).servos().forEach(s -> servos.put(s.channel(), unit));
    }
    return servos;
  }

  /** The pulse of a servo once its arm stands where its unit shows it. */
  int pulse(int channel, int unit) {
    Servo servo = servo(channel, unit);
    Display shown = kinds[unit].states().get(states[unit]).picture().get(servo.place());
    return servo.pulses().get(servo.positions().indexOf(shown.look()));
  }

  /**
   * By how much the pulse of a servo changes every so many milliseconds, at least and at most, so
   * that the last change ends within the time of travel.
   */
  int[] change(int channel, int unit, int millis) {
    Servo servo = servo(channel, unit);
    int least = Integer.MAX_VALUE;
    int most = 0;
    for (int pulse : servo.pulses()) {
      least = Math.min(least, pulse);
      most = Math.max(most, pulse);
    }
    double even = (most - least) / Math.floor((double) servo.travel() / millis);
    return new int[] {(int) Math.ceil(even), (int) Math.ceil(even) + 1};
  }

  private Servo servo(int channel, int unit) {
    return units.get(unit).servos().stream()
        .filter(s -> s.channel() == channel)
        .findFirst()
        .orElseThrow();
  }

  void night(boolean now) {
    night = now;
  }

  void trainComes(int unit, boolean now) {
    trainComes[unit] = now;
  }

  /** The bytes for a chain's LEDs. */
  byte[] leds(Chain chain, long millis) {
    int channels = chain.part().channels();
    byte[] bytes = new byte[chain.leds() * channels];
    for (int unit = 0; unit < states.length; unit++) {
      boolean unlit = kinds[unit].onApproach() && !trainComes[unit];
      if (unlit || units.get(unit).chain().index() != chain.index()) {
        continue;
      }
      int at = units.get(unit).led() * channels;
      List<Display> lit = kinds[unit].states().get(states[unit]).lit();
      for (Feed feed : feeds(unit)) {
        byte[] sent =
            feed.chip().isPresent()
                ? chip(unit, feed, lit, millis)
                : led(unit, feed.lamps().get(0), lit.get(feed.lamps().get(0)), millis);
        System.arraycopy(sent, 0, bytes, at, channels);
        at += channels;
      }
    }
    return bytes;
  }

  /** What hangs on the chain of a unit, place by place. */
  private List<Feed> feeds(int unit) {
    List<Feed> said = kinds[unit].feeds();
    return said.isEmpty()
        ? IntStream.range(0, kinds[unit].leds()).mapToObj(Feed::led).toList()
        : said;
  }

  /** Each output of a chip is lit or not, as the lamp at it shows; its LED has its own colour. */
  private byte[] chip(int unit, Feed feed, List<Display> lit, long millis) {
    byte[] sent = new byte[feed.lamps().size()];
    for (int output = 0; output < sent.length; output++) {
      int lamp = feed.lamps().get(output);
      if (lamp >= 0 && !lit.get(lamp).look().equals("dark") && isLit(lit.get(lamp), millis)) {
        sent[output] = (byte) part(unit, lamp, 255);
      }
    }
    return sent;
  }

  private byte[] led(int unit, int lamp, Display display, long millis) {
    Chain chain = units.get(unit).chain();
    String order = chain.part().order();
    byte[] led = new byte[order.length()];
    if (display.look().equals("dark") || !isLit(display, millis)) {
      return led;
    }
    List<Integer> drive = chain.part().drive().get(display.look());
    for (int i = 0; i < led.length; i++) {
      led[i] = (byte) part(unit, lamp, drive.get("RGBW".indexOf(order.charAt(i))));
    }
    return led;
  }

  /** What is left of a drive by the percents of chain, signal and lamp. */
  private long part(int unit, int lamp, int full) {
    Chain chain = units.get(unit).chain();
    long percents =
        units.get(unit).dimming().percent() * (night ? chain.night() : chain.brightness());
    return full == 0 ? 0 : Math.max(1, Math.round(full * percents * share(unit, lamp) / 1e6));
  }

  private boolean isLit(Display display, long millis) {
    if (display.rhythm().isEmpty()) {
      return true;
    }
    Rhythm rhythm = rhythms.get(display.rhythm());
    long into = millis % rhythm.periodMillis();
    if (rhythm.startsDark()) {
      into = rhythm.periodMillis() - 1 - into;
    }
    return into < rhythm.litMillis();
  }

  Controller controller() {
    return controller;
  }

  private boolean hears(int unit, int bus, Class<? extends Way> way) {
    return way.isInstance(kinds[unit].way()) && buses[unit] == bus;
  }

  private int stateFor(int unit, int value) {
    for (Answer answer : kinds[unit].answers()) {
      if (answer.value() == value) {
        return answer.state();
      }
    }
    return -1;
  }

  private void show(int unit, int state) {
    Kind kind = kinds[unit];
    if (state >= 0) {
      states[unit] = state;
    } else if (kind.otherwise() != Otherwise.KEEP) {
      states[unit] = kind.rest();
    }
  }
}
