package dev.doublet.facts;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.layout.Answer;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Layout;
import dev.doublet.layout.State;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.rulebook.Aspect;
import dev.doublet.source.SourceFile;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/**
 * Lost packets and switches thrown by hand, counted again by sending packets one by one to a number
 * that is kept as letters.
 */
class CodingTest {
  private static final List<String> SPEEDS = List.of("normal", "medium", "slow");

  /** Aspects of all permissions that three speeds make, Stop first; as many as are asked for. */
  private static String book(int aspects, Random random) {
    List<String> allows = new ArrayList<>();
    for (String here : SPEEDS) {
      allows.add(here + " then stop");
      SPEEDS.forEach(next -> allows.add(here + " then " + next));
    }
    allows.add("stop, then slow");
    allows.add("stop, then medium");
    allows.add("slow");
    Collections.shuffle(allows, random);
    StringBuilder book =
        new StringBuilder(
            """
            rulebook "Codes"
            speeds in mph { normal 60  medium 30  slow 15 }
            colours { red green yellow lunar }
            head h { lamp a shows red, green, yellow, lunar }
            form f { top, bottom }
            aspect "A0" { allows stop  on f show red over red }
            """);
    List<String> colours = List.of("red", "green", "yellow", "lunar");
    for (int i = 1; i < aspects; i++) {
      book.append("aspect \"A").append((char) ('A' + i)).append("\" { allows ");
      book.append(allows.get(i - 1)).append("  on f show ").append(colours.get(i / 4));
      book.append(" over ").append(colours.get(i % 4)).append(" }\n");
    }
    return book.toString();
  }

  private static Kind kind(String book, String command) {
    String layout =
        """
        layout: L
        rulebook: book.aspects
        otherwise: most-restrictive
        controllers:
          c:
            flash: 9000
            ram: 900
            chains:
              m:
                signals: [{name: S, form: f, heads: [h, h], by: binary-coded, %s}]
        """
            .formatted(command);
    Layout read =
        LayoutResolver.resolve(
                "layout.yaml", p -> new SourceFile(p, p.endsWith("yaml") ? layout : book))
            .value()
            .orElseThrow();
    Controller controller = read.controllers().get(0);
    return controller.units().get(0).kind();
  }

  @Test
  void losses_are_those_of_packets_sent_one_by_one() {
    Random random = new Random(7);
    for (int i = 0; i < 60; i++) {
      int bits = 1 + random.nextInt(4);
      int aspects = 2 + random.nextInt(Math.min(15, (1 << bits) - 1));
      Kind kind = kind(book(aspects, random), "bits: " + bits);
      Set<String> losses =
          Coding.of(kind).lost().stream()
              .map(p -> p.from().name() + p.to().name() + p.through().name() + p.bit())
              .collect(Collectors.toSet());
      assertThat(losses).isEqualTo(lostBySending(kind, bits));
      assertThat(Coding.of(kind).lost()).hasSameSizeAs(losses);
    }
  }

  private static Set<String> lostBySending(Kind kind, int bits) {
    Set<String> losses = new HashSet<>();
    for (Answer from : kind.answers()) {
      for (Answer to : kind.answers()) {
        String before = letters(from.value(), bits);
        String after = letters(to.value(), bits);
        for (int lost = 0; lost < bits; lost++) {
          StringBuilder kept = new StringBuilder(before);
          for (int packet = 0; packet < bits; packet++) {
            if (packet != lost) {
              kept.setCharAt(packet, after.charAt(packet));
            }
          }
          if (before.charAt(lost) != after.charAt(lost)) {
            State read = state(kind, kept.toString(), bits);
            State old = kind.states().get(from.state());
            State called = kind.states().get(to.state());
            if (read != null && !isAsRestrictive(read, old) && !isAsRestrictive(read, called)) {
              losses.add(old.name() + called.name() + read.name() + lost);
            }
          }
        }
      }
    }
    return losses;
  }

  private static String letters(int value, int bits) {
    return IntStream.range(0, bits)
        .mapToObj(b -> (value & 1 << b) != 0 ? "1" : "0")
        .collect(Collectors.joining());
  }

  private static State state(Kind kind, String letters, int bits) {
    return kind.answers().stream()
        .filter(a -> letters(a.value(), bits).equals(letters))
        .findFirst()
        .map(a -> kind.states().get(a.state()))
        .orElse(null);
  }

  private static boolean isAsRestrictive(State one, State other) {
    return one.aspect()
        .map(Aspect::permission)
        .orElseThrow()
        .atLeastAsRestrictiveAs(other.aspect().map(Aspect::permission).orElseThrow());
  }

  @Test
  void no_numbering_on_three_addresses_has_fewer_losses() {
    Random random = new Random(8);
    for (int i = 0; i < 3; i++) {
      int aspects = 6 + i;
      String book = book(aspects, random);
      Kind kind = kind(book, "bits: 3");
      Coding.Numbering best = Coding.of(kind).fewest(3);
      assertThat(best.losses()).isEqualTo(best.least());
      assertThat(Coding.of(kind).least(3)).isLessThanOrEqualTo(best.losses());
      assertThat(best.values().get(kind.rest())).isZero();
      int least = Integer.MAX_VALUE;
      List<String> names = kind.states().stream().map(State::name).toList();
      List<Integer> values = new ArrayList<>(IntStream.range(1, 8).boxed().toList());
      for (int n = 0; n < 300; n++) {
        Collections.shuffle(values, random);
        least = Math.min(least, losses(book, names, values));
      }
      assertThat(best.losses()).isLessThanOrEqualTo(least);
      List<Integer> proposed = new ArrayList<>(best.values());
      proposed.remove((Integer) 0);
      assertThat(losses(book, names, proposed)).isEqualTo(best.losses());
    }
  }

  private static int losses(String book, List<String> names, List<Integer> values) {
    StringBuilder said = new StringBuilder("0: " + names.get(0));
    for (int i = 1; i < names.size(); i++) {
      said.append(", ").append(values.get(i - 1)).append(": ").append(names.get(i));
    }
    return lostBySending(kind(book, "bits: 3, values: {" + said + "}"), 3).size();
  }

  @Test
  void up_to_eight_aspects_on_four_addresses_lose_nothing() {
    Random random = new Random(9);
    for (int aspects = 2; aspects <= 8; aspects++) {
      Coding.Numbering best = Coding.of(kind(book(aspects, random), "bits: 3")).fewest(4);
      assertThat(best.losses()).isZero();
      assertThat(best.values()).allMatch(v -> Integer.bitCount(v) % 2 == 0).doesNotHaveDuplicates();
    }
  }

  @Test
  void more_aspects_lose_no_more_than_in_the_natural_order() {
    Random random = new Random(10);
    for (int aspects = 9; aspects <= 15; aspects += 2) {
      Coding coding = Coding.of(kind(book(aspects, random), "bits: 4"));
      Coding.Numbering best = coding.fewest(4);
      assertThat(best.losses()).isBetween(best.least(), coding.lost().size());
      assertThat(best.values()).doesNotHaveDuplicates().allMatch(v -> v < 16);
    }
  }

  @Test
  void no_order_of_switches_does_less_harm() {
    Random random = new Random(11);
    for (int i = 0; i < 20; i++) {
      int bits = 2 + random.nextInt(3);
      Kind kind = kind(book(Math.min(15, 1 << bits), random), "bits: " + bits);
      Coding coding = Coding.of(kind);
      for (Answer to : kind.answers()) {
        Coding.Throwing best = coding.throwing(to.value());
        assertThat(best.bits()).hasSize(bits).doesNotHaveDuplicates();
        assertThat(thrown(kind, to, best.bits(), bits)).isEqualTo(best.remaining().size());
        List<Integer> order = new ArrayList<>(best.bits());
        for (int n = 0; n < 10; n++) {
          Collections.shuffle(order, random);
          assertThat(thrown(kind, to, order, bits))
              .isEqualTo(coding.harmful(to.value(), order))
              .isGreaterThanOrEqualTo(best.remaining().size());
        }
      }
    }
  }

  /** On how many changes to a value a switch thrown in an order shows too much. */
  private static int thrown(Kind kind, Answer to, List<Integer> order, int bits) {
    int harm = 0;
    for (Answer from : kind.answers()) {
      StringBuilder now = new StringBuilder(letters(from.value(), bits));
      boolean wrong = false;
      for (int bit : order) {
        now.setCharAt(bit, letters(to.value(), bits).charAt(bit));
        State read = state(kind, now.toString(), bits);
        wrong |=
            read != null
                && !isAsRestrictive(read, kind.states().get(from.state()))
                && !isAsRestrictive(read, kind.states().get(to.state()));
      }
      harm += wrong ? 1 : 0;
    }
    return harm;
  }
}
