package dev.doublet.table;

import dev.doublet.bus.EventId;
import dev.doublet.bus.Packet;
import dev.doublet.layout.Answer;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Bus.Speaks;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Message;
import dev.doublet.layout.Servo;
import dev.doublet.layout.State;
import dev.doublet.layout.Unit;
import dev.doublet.layout.Way;
import dev.doublet.rulebook.Rulebook;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Supplier;
import java.util.stream.IntStream;

/**
 * Proves that the bytes of a table do what the layout says. It opens them with the independent
 * decoder, sends both every command that could tell them apart (each value to the first unit of
 * each kind and those that call something up to all others, values and addresses that mean nothing,
 * packets that switch off, broadcasts), and compares what every signal shows after each, and all
 * LED bytes of every state before and after each change of every rhythm. It is long because each
 * sort of command is tried in its own way.
 */
public final class TableProof {
  /** Milliseconds that readers may count as waited, or not. */
  private static final int STEP = 16;

  /** More milliseconds than any unit waits, and fewer than make one wait anew. */
  private static final int SETTLED = Way.BinaryCoded.LONGEST_SETTLE + 6 * STEP;

  /** No arm takes longer. */
  private static final int LONGEST_TRAVEL = Servo.SLOWEST + STEP;

  private static final int ADDRESSES = 2048;

  private final Rulebook book;
  private final ExpectedBehaviour expected;
  private final TableReader found;
  private final List<Bus> buses;
  private int[] seen = new int[0];
  private final SortedSet<Long> instants = new TreeSet<>();
  private final Set<List<Object>> provenKinds = new HashSet<>();
  private final List<BitSet> compared = new ArrayList<>();
  private boolean inPictures;
  private String differenceOrNull;
  private long now;

  private TableProof(Rulebook book, Controller controller, TableReader found) {
    this.book = book;
    this.expected = new ExpectedBehaviour(book, controller);
    this.found = found;
    this.buses = expected.buses();
    expected.units().forEach(u -> compared.add(new BitSet()));
    instants.add(0L);
    book.rhythms().forEach(r -> edges(r.periodMillis(), r.litMillis()));
    found.model().rhythms().forEach(r -> edges(r.period(), r.first()));
  }

  /**
   * The first thing in which a table and its layout differ, in words; empty when they do the same.
   */
  public static Optional<String> firstDifference(
      Rulebook book, Controller controller, byte[] table) {
    try {
      TableProof proof = new TableProof(book, controller, TableReader.open(table));
      return proof.run(book.edition());
    } catch (TableFault fault) {
      return Optional.of("the table cannot be opened: " + fault.getMessage());
    }
  }

  private void edges(long period, long lit) {
    instants.addAll(
        List.of(lit - 1, lit, period - 1, period, 7 * period + lit - 1, 7 * period + lit));
  }

  private Optional<String> run(int edition) {
    sameNumbers("edition", edition, found.model().edition());
    sameNumbers("number of signals", expected.units().size(), found.model().units().size());
    sameNumbers(
        "number of chains", expected.controller().chains().size(), found.model().chains().size());
    sameNumbers("number of buses", buses.size(), found.model().buses().size());
    for (int bus = 0; bus < buses.size() && differenceOrNull == null; bus++) {
      int shown = found.model().buses().get(bus).firstDecoder();
      boolean dcc = buses.get(bus).speaks() == Speaks.DCC;
      sameNumbers("first decoder", dcc ? buses.get(bus).firstDecoder() : 0, shown);
    }
    if (differenceOrNull == null) {
      sameGlows();
      arms();
      sameFrames("before the first command");
      pictures();
      units();
      promises();
      bursts();
      trains();
      strangers();
    }
    return Optional.ofNullable(differenceOrNull);
  }

  private void sameNumbers(String what, int should, int is) {
    if (differenceOrNull == null && should != is) {
      differenceOrNull =
          String.format(Locale.ROOT, "the %s is %d and should be %d", what, is, should);
    }
  }

  /**
   * How each LED goes from light to light by day and by night, with the bytes of what it passes.
   */
  private void sameGlows() {
    for (boolean night : new boolean[] {false, true}) {
      expected.night(night);
      found.setNight(night);
      for (int unit = 0; unit < expected.units().size() && differenceOrNull == null; unit++) {
        if (!glows(unit).equals(expected.glows(unit))) {
          differenceOrNull =
              "the lamps of " + expected.units().get(unit).name() + " fade in another way";
        }
      }
    }
  }

  /** What the table says, in the words of {@link ExpectedBehaviour#glows}. */
  private List<String> glows(int unit) {
    TableModel model = found.model();
    TableModel.Chain sent = model.chains().get(expected.units().get(unit).chain().index());
    int channels = sent.channels();
    int level = model.units().get(unit).level();
    return model.kinds().get(model.units().get(unit).kind()).look().glows().stream()
        .map(
            glow -> {
              int end = channels * glow.middle();
              int start = Math.max(0, end - channels);
              List<Integer> bytes = found.palette(sent, level).subList(start, end);
              return glow.filament() + " " + glow.middle() + bytes;
            })
        .toList();
  }

  /**
   * Every servo at every state of its unit, and on its way between every two of its pulses: it goes
   * no faster and no slower than is said, not past the end, and comes there.
   */
  private void arms() {
    List<Integer> channels =
        found.model().servos().stream().map(TableModel.Servo::channel).toList();
    if (!channels.equals(List.copyOf(expected.servos().keySet()))) {
      differenceOrNull = "other servos move arms";
      return;
    }
    inPictures = true;
    for (int servo = 0; servo < channels.size() && differenceOrNull == null; servo++) {
      int channel = channels.get(servo);
      int unit = expected.servos().get(channel);
      SortedMap<Integer, Integer> ends = new TreeMap<>();
      for (int state = 0; state < expected.units().get(unit).kind().states().size(); state++) {
        call(unit, state);
        ends.putIfAbsent(moves(servo, channel, unit), state);
      }
      for (int from : ends.values()) {
        for (int to : ends.values()) {
          call(unit, from);
          moves(servo, channel, unit);
          call(unit, to);
          moves(servo, channel, unit);
        }
      }
    }
    inPictures = false;
  }

  /** One arm, from when its unit was told to show something until it stands. */
  private int moves(int servo, int channel, int unit) {
    now += expected.units().get(unit).kind().way().settle() + 2 * STEP;
    now += STEP - now % STEP;
    expected.passes(now);
    int to = expected.pulse(channel, unit);
    int at = found.pulse(servo, now);
    int[] change = expected.change(channel, unit, STEP);
    boolean same = true;
    for (int steps = 0; steps * STEP <= LONGEST_TRAVEL; steps++) {
      now += STEP;
      int before = at;
      at = found.pulse(servo, now);
      int by = to > before ? at - before : before - at;
      int left = Math.abs(to - before);
      same &= by <= Math.min(left, change[1]) && by >= Math.min(left, change[0]);
    }
    if (differenceOrNull == null && (!same || at != to)) {
      differenceOrNull =
          String.format(
              Locale.ROOT,
              "the servo on channel %d moves otherwise, and ends at %d for %d us",
              channel,
              at,
              to);
    }
    return to;
  }

  /** Every value of every unit. */
  private void units() {
    for (int unit = 0; unit < expected.units().size() && differenceOrNull == null; unit++) {
      Unit meant = expected.units().get(unit);
      int bus = buses.indexOf(meant.command().bus());
      switch (meant.command().bus().speaks()) {
        case DCC -> packets(bus, unit);
        case MQTT -> payloads(bus, unit);
        case OPENLCB -> {
          for (long event : meant.command().events()) {
            event(bus, event - 1);
            event(bus, event);
            event(bus, event + 1);
          }
        }
      }
    }
  }

  private void packets(int bus, int unit) {
    int[] addresses = expected.addresses(unit);
    Way way = expected.units().get(unit).kind().way();
    if (way instanceof Way.AspectNumber) {
      values(unit).forEach(v -> extended(bus, addresses[0], v));
    } else if (way instanceof Way.BinaryCoded) {
      bits(bus, addresses);
    } else {
      for (int address : addresses) {
        basic(bus, address, true);
        basic(bus, address, false);
      }
    }
  }

  /**
   * All values for the first unit of a kind. What a reader does with a value depends on the unit's
   * kind alone, so further units of it take those that call up a state, and their neighbours.
   */
  private IntStream values(int unit) {
    Kind meant = expected.units().get(unit).kind();
    if (provenKinds.add(List.of(new ByIdentity(meant), found.model().units().get(unit).kind()))) {
      return IntStream.range(0, 256);
    }
    return meant.answers().stream()
        .flatMapToInt(a -> IntStream.of(a.value(), Math.min(255, a.value() + 1)))
        .distinct();
  }

  private record ByIdentity(Kind kind) {
    @Override
    public boolean equals(Object other) {
      return other instanceof ByIdentity same && same.kind == kind;
    }

    @Override
    public int hashCode() {
      return System.identityHashCode(kind);
    }
  }

  /** Every number from the highest down, and what lies between one and the next. */
  private void bits(int bus, int[] addresses) {
    for (int value = (1 << addresses.length) - 1; value >= 0; value--) {
      for (int i = 0; i < addresses.length; i++) {
        basic(bus, addresses[i], (value >> i & 1) == 1);
      }
    }
  }

  /** What a list of answers tells people to send, message by message, calls up what it says. */
  private void promises() {
    for (int unit = 0; unit < expected.units().size() && differenceOrNull == null; unit++) {
      Unit meant = expected.units().get(unit);
      Way way = meant.kind().way();
      int values = way.values(meant.command().bus());
      for (Answer answer : meant.kind().answers()) {
        if (values == 0 || answer.value() < values) {
          way.calling(meant, answer).forEach(m -> send(buses.indexOf(meant.command().bus()), m));
          promised(unit, answer);
        }
      }
    }
  }

  private void send(int bus, Message message) {
    now += 1;
    if (message instanceof Message.ToAccessory to) {
      found.packet(bus, to.packet().bytes(), now);
      if (to.packet() instanceof Packet.BasicAccessory basic) {
        expected.basic(bus, basic.binary(), basic.output() == 1, now);
      } else if (to.packet() instanceof Packet.ExtendedAccessory extended) {
        expected.extended(bus, extended.binary(), extended.value());
      }
    } else if (message instanceof Message.ToTopic to) {
      topic(bus, to.topic(), to.payload());
    } else if (message instanceof Message.ToAll to) {
      event(bus, to.event().bits());
    }
  }

  private void promised(int unit, Answer answer) {
    String sent = "after all that is sent for value " + answer.value();
    sameWhenSettled(sent);
    if (differenceOrNull == null && found.state(unit) != answer.state()) {
      Unit meant = expected.units().get(unit);
      differenceOrNull =
          String.format(
              Locale.ROOT,
              "%s, %s shows number %d and should show \"%s\"",
              sent,
              meant.name(),
              found.number(unit, now + SETTLED),
              meant.kind().states().get(answer.state()).name());
    }
    later();
  }

  /**
   * Compares what all units show once nothing waits: one left to wait for longer than a second, as
   * where others share an address with it, would count its time from the beginning again.
   */
  private void sameWhenSettled(String when) {
    expected.passes(now + SETTLED);
    if (differenceOrNull == null && !found.shows(expected.states(), now + SETTLED)) {
      sameStates(when);
    }
  }

  /**
   * From every number to every other, packets in every order and less than the time to settle
   * apart: a unit that settles shows the old aspect until they are over, and then the new one.
   */
  private void bursts() {
    Set<List<Object>> proven = new HashSet<>();
    for (int unit = 0; unit < expected.units().size(); unit++) {
      Unit meant = expected.units().get(unit);
      int bus = buses.indexOf(meant.command().bus());
      int as = found.model().units().get(unit).kind();
      int steps = (meant.kind().way().settle() + STEP - 1) / STEP;
      int waits = found.model().kinds().get(as).settling();
      sameNumbers("number of steps that " + meant.name() + " waits for packets", steps, waits);
      if (meant.kind().way().settle() > 0
          && proven.add(List.of(new ByIdentity(meant.kind()), as, bus))) {
        // On a reader of its own: on the other, units that share an address would be left to wait.
        TableProof own =
            new TableProof(book, expected.controller(), new TableReader(found.model()));
        own.bursts(unit, bus, meant.kind().way().addresses());
        differenceOrNull = differenceOrNull == null ? own.differenceOrNull : differenceOrNull;
      }
    }
  }

  private void bursts(int unit, int bus, int addresses) {
    int values = 1 << addresses;
    for (int change = 0; change < values * values; change++) {
      for (List<Integer> order : orders(addresses)) {
        burst(unit, bus, change / values, change % values, order);
      }
    }
  }

  private void burst(int unit, int bus, int from, int to, List<Integer> order) {
    int[] addresses = expected.addresses(unit);
    int gap = expected.units().get(unit).kind().way().settle() - 1;
    for (int value : new int[] {from, to}) {
      later();
      int before = expected.states()[unit];
      for (int i : order) {
        now += gap;
        boolean normal = (value >> i & 1) == 1;
        expected.basic(bus, addresses[i], normal, now);
        found.packet(
            bus, new Packet.BasicAccessory(addresses[i], normal ? 1 : 0, true).bytes(), now);
        found.number(unit, now + gap);
        if (differenceOrNull == null && found.state(unit) != before) {
          differenceOrNull =
              String.format(
                  Locale.ROOT,
                  "%s passes through another aspect between the packets of a command",
                  expected.units().get(unit).name());
        }
      }
      now += gap + 1 + 2 * STEP;
      expected.passes(now);
      found.number(unit, now);
      if (differenceOrNull == null && found.state(unit) != expected.states()[unit]) {
        differenceOrNull =
            String.format(
                Locale.ROOT,
                "%s does not settle after the packets of a command",
                expected.units().get(unit).name());
      }
    }
  }

  private static List<List<Integer>> orders(int count) {
    if (count == 0) {
      return List.of(List.of());
    }
    List<List<Integer>> orders = new ArrayList<>();
    for (List<Integer> shorter : orders(count - 1)) {
      for (int at = 0; at <= shorter.size(); at++) {
        List<Integer> order = new ArrayList<>(shorter);
        order.add(at, count - 1);
        orders.add(order);
      }
    }
    return orders;
  }

  private void payloads(int bus, int unit) {
    Unit meant = expected.units().get(unit);
    String topic = meant.command().topic();
    for (State state : meant.kind().states()) {
      topic(bus, topic, state.name());
      topic(bus, topic, "\t" + state.name().replace('S', 's').replace('e', 'E') + "\r\n");
      topic(bus, topic, state.name() + "?");
    }
    values(unit).forEach(value -> topic(bus, topic, Integer.toString(value)));
    topic(bus, topic, "256");
    topic(bus, topic, "");
    topic(bus, topic + "/", meant.kind().states().get(0).name());
  }

  /** Signals that wait for trains: no train for all, for every other one, and for none. */
  private void trains() {
    if (expected.units().stream().noneMatch(u -> u.kind().onApproach())
        && found.model().kinds().stream().noneMatch(TableModel.Kind::onApproach)) {
      return;
    }
    for (int away : new int[] {0, 1, 2}) {
      for (int unit = 0; unit < expected.units().size(); unit++) {
        boolean comes = away == 2 || unit % 2 < away;
        expected.trainComes(unit, comes);
        found.setApproach(unit, comes, now);
      }
      sameFrames("with trains at " + away + " of 2 signals");
      pictures();
    }
  }

  /** Every address whether or not a unit has it, broadcasts, and packets that switch off. */
  private void strangers() {
    for (int bus = 0; bus < buses.size(); bus++) {
      if (buses.get(bus).speaks() == Speaks.DCC) {
        for (int address = 0; address < ADDRESSES; address++) {
          basic(bus, address, address % 3 == 0);
          extended(bus, address, address % 5);
          send(bus, new Packet.BasicAccessory(address, address & 1, false), 0);
        }
        for (int value = 0; value < 256; value++) {
          extended(bus, ADDRESSES - 1, value);
        }
      }
    }
  }

  /** Nearly every state that a command calls up, in as many units at once as have so many. */
  private void pictures() {
    inPictures = true;
    int most = expected.units().stream().mapToInt(u -> u.kind().states().size()).max().orElse(0);
    for (int state = 0; state < most && differenceOrNull == null; state++) {
      for (int unit = 0; unit < expected.units().size(); unit++) {
        call(unit, state % expected.units().get(unit).kind().states().size());
      }
      sameFrames("with state " + state + " called up everywhere");
    }
    inPictures = false;
  }

  private void call(int unit, int state) {
    Unit meant = expected.units().get(unit);
    int bus = buses.indexOf(meant.command().bus());
    Way way = meant.kind().way();
    int values = way.values(meant.command().bus());
    meant.kind().answers().stream()
        .filter(a -> a.state() == state && (values == 0 || a.value() < values))
        .forEach(a -> way.calling(meant, a).forEach(message -> command(bus, message)));
  }

  private void command(int bus, Message message) {
    if (message instanceof Message.ToTopic to) {
      topic(bus, to.topic(), to.payload());
    } else if (message instanceof Message.ToAll to) {
      event(bus, to.event().bits());
    } else if (message instanceof Message.ToAccessory to) {
      if (to.packet() instanceof Packet.BasicAccessory basic) {
        basic(bus, basic.binary(), basic.output() == 1);
      } else if (to.packet() instanceof Packet.ExtendedAccessory extended) {
        extended(bus, extended.binary(), extended.value());
      }
    }
  }

  /** The next command comes when all that went before has settled. */
  private void later() {
    now += 2 * SETTLED;
    // So that an arm is met on its way, and not when it has come.
    for (int servo = 0; servo < found.model().servos().size(); servo++) {
      found.pulse(servo, now);
    }
  }

  private void basic(int bus, int address, boolean normal) {
    later();
    int taken = expected.basic(bus, address, normal, now);
    send(bus, new Packet.BasicAccessory(address, normal ? 1 : 0, true), taken);
  }

  private void extended(int bus, int address, int value) {
    later();
    int taken = expected.extended(bus, address, value);
    send(bus, new Packet.ExtendedAccessory(address, value), taken);
  }

  private void send(int bus, Packet packet, int shouldTake) {
    int takes = found.packet(bus, packet.bytes(), now);
    same(
        () ->
            String.format(
                Locale.ROOT, "packet %s on bus \"%s\"", packet.hex(), buses.get(bus).name()),
        shouldTake,
        takes);
  }

  private void topic(int bus, String topic, String payload) {
    later();
    int shouldTake = expected.topic(bus, topic, payload);
    int takes =
        found.topic(
            bus,
            topic.getBytes(StandardCharsets.UTF_8),
            payload.getBytes(StandardCharsets.UTF_8),
            now);
    same(() -> "payload \"" + payload + "\" of topic \"" + topic + "\"", shouldTake, takes);
  }

  private void event(int bus, long event) {
    later();
    int shouldTake = expected.event(bus, event);
    same(() -> "event " + new EventId(event), shouldTake, found.event(bus, event, now));
  }

  private void same(Supplier<String> command, int shouldTake, int takes) {
    if (differenceOrNull != null) {
      return;
    }
    expected.passes(now + SETTLED);
    if (shouldTake != takes) {
      sameNumbers("number of signals that take " + command.get(), shouldTake, takes);
    } else if (!found.shows(expected.states(), now + SETTLED)) {
      sameStates("after " + command.get());
    } else if (!inPictures && !Arrays.equals(seen, expected.states())) {
      seen = expected.states().clone();
      sameFramesOfNewStates(command);
    }
  }

  private void sameStates(String when) {
    for (int unit = 0; unit < expected.units().size() && differenceOrNull == null; unit++) {
      State should = expected.units().get(unit).kind().states().get(expected.states()[unit]);
      if (found.state(unit) != expected.states()[unit]
          || found.number(unit, now + SETTLED) != should.number()) {
        differenceOrNull =
            String.format(
                Locale.ROOT,
                "%s, %s shows number %d and should show \"%s\", number %d",
                when,
                expected.units().get(unit).name(),
                found.number(unit, now + SETTLED),
                should.name(),
                should.number());
      }
    }
  }

  /** Compares what shows a unit in a state not compared yet. */
  private void sameFramesOfNewStates(Supplier<String> command) {
    for (int unit = 0; unit < seen.length; unit++) {
      if (!compared.get(unit).get(seen[unit])) {
        sameFrames("after " + command.get());
      }
    }
  }

  private void sameFrames(String when) {
    if (differenceOrNull != null) {
      return;
    }
    sameStates(when);
    for (int unit = 0; unit < expected.units().size(); unit++) {
      compared.get(unit).set(expected.states()[unit]);
    }
    sameFrames(when, false);
    if (expected.controller().chains().stream().anyMatch(c -> c.night() != c.brightness())) {
      sameFrames(when + " by night", true);
    }
  }

  private void sameFrames(String when, boolean night) {
    expected.night(night);
    found.setNight(night);
    for (Chain chain : expected.controller().chains()) {
      for (long millis : instants) {
        byte[] should = expected.leds(chain, millis);
        byte[] is = found.leds(chain.index(), millis);
        int at = Arrays.mismatch(should, is);
        if (differenceOrNull == null && at >= 0) {
          differenceOrNull =
              String.format(
                  Locale.ROOT,
                  "%s, LED %d of chain \"%s\" differs at %d ms",
                  when,
                  at / chain.part().channels(),
                  chain.name(),
                  millis);
        }
      }
    }
  }
}
