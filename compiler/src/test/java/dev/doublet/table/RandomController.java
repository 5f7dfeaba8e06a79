package dev.doublet.table;

import dev.doublet.layout.Answer;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Bus.Speaks;
import dev.doublet.layout.Cable;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Chip;
import dev.doublet.layout.Command;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Dimming;
import dev.doublet.layout.Feed;
import dev.doublet.layout.Glow;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Kind.Otherwise;
import dev.doublet.layout.Part;
import dev.doublet.layout.State;
import dev.doublet.layout.Supply;
import dev.doublet.layout.Unit;
import dev.doublet.layout.Way;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Numbers;
import dev.doublet.rulebook.Numerals;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.IntStream;

/** Small controllers with every mode, buses of each sort, parts of both sizes, and gaps. */
final class RandomController {
  private static final List<String> MIDDLES = List.of("red", "yellow", "green", "lunar", "blue");

  private static final List<String> RHYTHMS =
      List.of("", "", "", "flashing", "winking", "pulsing", "flashing-late", "winking-late");

  private RandomController() {}

  static Controller of(Random random) {
    List<Bus> buses =
        List.of(
            new Bus("track", Speaks.DCC, random.nextInt(2), 5, "", Samples.NOWHERE),
            new Bus("yard", Speaks.DCC, 1, 8, "", Samples.NOWHERE),
            new Bus("net", Speaks.MQTT, 0, 0, "brackwater/", Samples.NOWHERE),
            new Bus("club", Speaks.OPENLCB, 0, 0, "", Samples.NOWHERE));
    List<Kind> kinds = new ArrayList<>();
    boolean plain = random.nextInt(3) == 0;
    boolean dimmed = !plain && random.nextInt(4) == 0;
    int percent = 1 + random.nextInt(99);
    for (int i = 1 + random.nextInt(4); i > 0; i--) {
      kinds.add(kind(random, plain));
    }
    List<Chain> chains = new ArrayList<>();
    List<Unit> units = new ArrayList<>();
    int address = 1 + random.nextInt(2048);
    long event = random.nextLong();
    for (int index = random.nextInt(3); index >= 0; index--) {
      Part part = random.nextBoolean() ? Samples.PIXEL : Samples.FOUR_CHANNEL;
      int brightness = 1 + random.nextInt(100);
      int night = plain || random.nextBoolean() ? brightness : 1 + random.nextInt(brightness);
      int leds = random.nextInt(20);
      Chain chain =
          new Chain(
              "c" + chains.size(),
              chains.size(),
              part,
              brightness,
              night,
              leds,
              Supply.UNSAID,
              Cable.UNSAID,
              List.of(),
              Samples.NOWHERE);
      chains.add(chain);
      int led = random.nextInt(4) == 0 ? random.nextInt(3) : 0;
      while (true) {
        Kind kind = kinds.get(random.nextInt(kinds.size()));
        if (led + kind.leds() > leds) {
          break;
        }
        if (kind.feeds().stream()
            .flatMap(f -> f.chip().stream())
            .anyMatch(c -> c.outputs().size() != part.channels())) {
          led++;
          continue;
        }
        String name = "U" + units.size();
        if (random.nextInt(5) == 0) {
          address = 1 + random.nextInt(2048);
        }
        event += random.nextInt(4) == 0 ? random.nextInt() : 256;
        Command command = command(random, kind, buses, address, event, name);
        Dimming dimming = dimmed ? dimming(random, percent, kind.lamps()) : Dimming.NONE;
        units.add(
            new Unit(name, name, kind, chain, led, command, dimming, List.of(), Samples.NOWHERE));
        address = (address + kind.way().addresses() - 1) % 2048 + 1;
        led += kind.leds() + (random.nextInt(4) == 0 ? random.nextInt(3) : 0);
      }
    }
    return Samples.controller(chains, units);
  }

  /** Some lamps at outputs of chips, in any order and with gaps, and the others with LEDs. */
  private static List<Feed> feeds(Random random, int lamps) {
    List<String> outputs = List.of("R", "G", "B", "W").subList(0, 3 + random.nextInt(2));
    Chip chip = new Chip("chip", outputs, 18, 1, new TreeMap<>(), Samples.NOWHERE);
    List<Integer> left = new ArrayList<>(IntStream.range(0, lamps).boxed().toList());
    Collections.shuffle(left, random);
    List<Feed> feeds = new ArrayList<>();
    while (!left.isEmpty()) {
      if (!feeds.isEmpty() && random.nextInt(3) == 0) {
        feeds.add(Feed.led(left.remove(0)));
        continue;
      }
      List<Integer> fed = new ArrayList<>(Collections.nCopies(outputs.size(), Feed.NONE));
      for (int i = 0; i < outputs.size() && !left.isEmpty(); i++) {
        if (random.nextInt(4) > 0 || i == outputs.size() - 1) {
          fed.set(i, left.remove(0));
        }
      }
      feeds.add(new Feed(chip, fed));
    }
    return feeds;
  }

  /** As bright as the chain or so many percent of it, lamps alike or each by itself. */
  private static Dimming dimming(Random random, int percent, int lamps) {
    boolean alike = random.nextBoolean();
    List<Integer> each = new ArrayList<>();
    for (int lamp = 0; lamp < lamps; lamp++) {
      each.add(alike || random.nextBoolean() ? 100 : percent);
    }
    return Dimming.of(random.nextBoolean() ? 100 : percent, each);
  }

  private static Kind kind(Random random, boolean plain) {
    int pick = random.nextInt(5);
    int leds = 1 + random.nextInt(6);
    int addresses = pick == 1 ? 1 + random.nextInt(4) : pick == 2 ? 1 + random.nextInt(5) : 0;
    int values =
        switch (pick) {
          case 0 -> random.nextBoolean() ? 32 : 256;
          case 1 -> 1 << addresses;
          case 2 -> 2 * addresses;
          default -> 256;
        };
    int count = 1 + random.nextInt(Math.min(10, values));
    boolean places = random.nextInt(3) == 0;
    List<State> states = new ArrayList<>();
    Set<Integer> numbers = new LinkedHashSet<>();
    while (numbers.size() < count) {
      numbers.add(random.nextInt(places ? 256 : values));
    }
    // Apart from the others, which are as they were before.
    Random own = new Random(31L * leds + count);
    boolean numbered = !plain && leds > 1 && (leds + count) % 3 > 0;
    int first = numbered ? 1 + own.nextInt(leds - 1) : 0;
    List<Display> base = new ArrayList<>();
    int place = 0;
    for (int number : numbers) {
      List<Display> lit = new ArrayList<>();
      for (int led = 0; led < leds; led++) {
        lit.add(display(random, plain));
      }
      // Of an aspect of many numbers only some LEDs change, and now and then another one begins.
      if (place == 0 || own.nextInt(6) == 0) {
        base = List.copyOf(lit);
      }
      if (numbered) {
        Collections.copy(lit.subList(0, first), base.subList(0, first));
      }
      Aspect aspect = numbered ? aspect(base.toString(), place) : null;
      states.add(new State("Aspect " + number, number, lit, lit, aspect));
      place++;
    }
    TreeMap<Integer, Integer> answers = new TreeMap<>();
    for (int i = 0; i < count; i++) {
      answers.put(places ? i : states.get(i).number(), i);
    }
    for (int extra = random.nextInt(3) == 0 ? 2 : 0; extra > 0; extra--) {
      answers.put(random.nextInt(values), random.nextInt(count));
    }
    List<Feed> feeds = plain || random.nextInt(4) > 0 ? List.of() : feeds(random, leds);
    return new Kind(
        "form",
        List.of(),
        List.of(),
        feeds.isEmpty() ? leds : feeds.size(),
        states,
        random.nextInt(count),
        way(pick, addresses, random.nextBoolean(), random.nextBoolean(), random.nextBoolean()),
        answers.entrySet().stream().map(e -> new Answer(e.getKey(), e.getValue())).toList(),
        !plain && random.nextInt(4) == 0,
        plain || random.nextBoolean() ? List.of() : glows(random, leds),
        feeds,
        random.nextInt(3) == 0 ? Otherwise.KEEP : Otherwise.UNSAID);
  }

  private static Aspect aspect(String family, int number) {
    Numerals numerals = new Numerals(family, List.of("n"), Numbers.NONE, List.of(number + 1));
    return new Aspect(
        family, List.of(), "", 0, "", null, List.of(), numerals, Samples.NOWHERE, Samples.NOWHERE);
  }

  private static Way way(
      int pick, int addresses, boolean oneIsNormal, boolean lowFirst, boolean byName) {
    return switch (pick) {
      case 0 -> new Way.AspectNumber();
      case 1 ->
          new Way.BinaryCoded(
              addresses, oneIsNormal, lowFirst, addresses > 1 ? Way.BinaryCoded.USUAL_SETTLE : 0);
      case 2 -> new Way.OnePerOutput(addresses);
      case 3 -> new Way.Topic(byName);
      default -> new Way.Event();
    };
  }

  private static List<Glow> glows(Random random, int leds) {
    List<Glow> glows = new ArrayList<>();
    for (int led = 0; led < leds; led++) {
      String middle = random.nextBoolean() ? "" : MIDDLES.get(random.nextInt(5));
      glows.add(new Glow(random.nextBoolean(), middle));
    }
    return glows;
  }

  private static Display display(Random random, boolean plain) {
    if (random.nextInt(4) == 0) {
      return Display.DARK;
    }
    String rhythm = RHYTHMS.get(random.nextInt(plain ? 6 : 8));
    return new Display(Samples.COLOURS.get(random.nextInt(4)), rhythm);
  }

  private static Command command(
      Random random, Kind kind, List<Bus> buses, int address, long event, String name) {
    if (kind.way() instanceof Way.Topic) {
      return new Command(buses.get(2), List.of(), "brackwater/é/" + name, List.of());
    }
    if (kind.way() instanceof Way.Event) {
      boolean odd = random.nextInt(4) == 0;
      boolean places = random.nextInt(3) == 0;
      List<Long> events = new ArrayList<>();
      for (int i = 0; i < kind.states().size(); i++) {
        int number = kind.states().get(i).number();
        events.add(odd ? random.nextLong() : event + (places ? i : number));
      }
      return new Command(buses.get(3), List.of(), "", events);
    }
    boolean odd = kind.way().addresses() > 1 && random.nextInt(5) == 0;
    Set<Integer> addresses = new LinkedHashSet<>();
    for (int i = 0; addresses.size() < kind.way().addresses(); i++) {
      addresses.add(odd ? 1 + random.nextInt(2048) : (address + i - 1) % 2048 + 1);
    }
    Bus bus = buses.get(random.nextInt(6) == 0 ? 1 : 0);
    return new Command(bus, List.copyOf(addresses), "", List.of());
  }
}
