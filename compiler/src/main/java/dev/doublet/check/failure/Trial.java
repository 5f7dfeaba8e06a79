package dev.doublet.check.failure;

import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Fault;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lit;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/**
 * One fault, and what is then seen.
 *
 * @param fault its kind
 * @param head the head that failed, from 0; -1 when no one head did
 * @param words what failed: "the top head is dark"
 * @param seen each head, top to bottom
 * @param plates the plates that are still there, sorted
 */
record Trial(Fault fault, int head, String words, List<Glimpse> seen, List<String> plates) {
  private static final int NO_HEAD = -1;

  /** Copies the lists. */
  Trial {
    seen = List.copyOf(seen);
    plates = List.copyOf(plates);
  }

  /** The picture seen, in words. */
  String picture() {
    return String.join(" over ", seen.stream().map(Glimpse::words).toList());
  }

  /**
   * A signal before the fault: the places of its heads, what each shows, and its plates.
   *
   * @param places names of the heads' places, top to bottom
   * @param picture what each shows
   * @param plates the plates it carries
   */
  record Whole(List<String> places, List<Display> picture, List<String> plates) {

    /** One lamp dark at one head of some make. */
    List<Trial> lampsOut(int head, HeadType type) {
      Display display = picture.get(head);
      List<Lit> lit = type.lights(display.look()).orElseThrow();
      List<Trial> trials = new ArrayList<>();
      for (Lit lamp : lit) {
        List<Lit> left = lit.stream().filter(l -> l != lamp).toList();
        String words =
            type.lamps().size() == 1
                ? "the " + places.get(head) + " head is dark"
                : lamp(head, type, lamp) + " is dark";
        trials.add(at(head, Fault.LAMP_OUT, words, Glimpse.of(type, left, 0, display.rhythm())));
      }
      return trials;
    }

    /** One die dead in one lamp that mixes its colour. */
    List<Trial> diesOut(int head, HeadType type, Dies dies) {
      Display display = picture.get(head);
      List<Lit> lit = type.lights(display.look()).orElseThrow();
      List<Trial> trials = new ArrayList<>();
      for (Lit lamp : lit) {
        for (Dies.Loss loss : dies.losses(lamp.colour())) {
          List<Lit> left = new ArrayList<>();
          for (Lit other : lit) {
            if (other != lamp) {
              left.add(other);
            } else if (loss.isKnown()) {
              left.add(new Lit(lamp.lamp(), loss.colour()));
            }
          }
          trials.add(
              at(
                  head,
                  Fault.DIE_OUT,
                  "the " + loss.die() + " die in " + lamp(head, type, lamp) + " is dead",
                  Glimpse.of(type, left, loss.isKnown() ? 0 : 1, display.rhythm())));
        }
      }
      return trials;
    }

    /** Each flashing head stuck, and all that flash alike stuck together. */
    List<Trial> flashersStuck() {
      List<Trial> trials = new ArrayList<>();
      Set<String> rhythms = new TreeSet<>();
      for (int head = 0; head < picture.size(); head++) {
        String rhythm = picture.get(head).rhythm();
        if (!rhythm.isEmpty()) {
          rhythms.add(rhythm);
          stick(Set.of(head), "the flasher of the " + places.get(head) + " head", trials);
        }
      }
      for (String rhythm : rhythms) {
        Set<Integer> heads = new TreeSet<>();
        for (int head = 0; head < picture.size(); head++) {
          if (picture.get(head).rhythm().equals(rhythm)) {
            heads.add(head);
          }
        }
        if (heads.size() > 1) {
          stick(heads, "the common flasher of " + heads.size() + " heads", trials);
        }
      }
      return trials;
    }

    /** Each plate missing. */
    List<Trial> platesLost() {
      List<Trial> trials = new ArrayList<>();
      for (String plate : plates) {
        trials.add(
            new Trial(
                Fault.PLATE_LOST,
                NO_HEAD,
                "the " + plate + " plate is missing",
                glimpses(),
                plates.stream().filter(p -> !p.equals(plate)).toList()));
      }
      return trials;
    }

    /** The chain broken before each LED in turn: it and all that follow are dark. */
    List<Trial> chainsBroken(List<HeadType> heads, List<Integer> wired) {
      int all = heads.stream().mapToInt(h -> h.lamps().size()).sum();
      List<Trial> trials = new ArrayList<>();
      for (int first = 0; first < all; first++) {
        List<Glimpse> seen = new ArrayList<>(glimpses());
        int led = 0;
        for (int place : wired) {
          HeadType type = heads.get(place);
          Display display = picture.get(place);
          int alive = first - led;
          List<Lit> left =
              type.lights(display.look()).orElseThrow().stream()
                  .filter(l -> l.lamp() < alive)
                  .toList();
          seen.set(place, Glimpse.of(type, left, 0, display.rhythm()));
          led += type.lamps().size();
        }
        String words =
            all == 1
                ? "its LED is dark"
                : "LED " + (first + 1) + " of " + all + " and all after it are dark";
        trials.add(new Trial(Fault.CHAIN_BROKEN, NO_HEAD, words, seen, plates));
      }
      return trials;
    }

    private void stick(Set<Integer> heads, String words, List<Trial> trials) {
      List<Glimpse> on = new ArrayList<>(glimpses());
      List<Glimpse> off = new ArrayList<>(glimpses());
      for (int head : heads) {
        on.set(head, Glimpse.of(Display.steady(picture.get(head).look())));
        off.set(head, Glimpse.of(Display.DARK));
      }
      trials.add(new Trial(Fault.FLASHER_STUCK, NO_HEAD, words + " is stuck on", on, plates));
      trials.add(new Trial(Fault.FLASHER_STUCK, NO_HEAD, words + " is stuck off", off, plates));
    }

    private Trial at(int head, Fault fault, String words, Glimpse glimpse) {
      List<Glimpse> seen = new ArrayList<>(glimpses());
      seen.set(head, glimpse);
      return new Trial(fault, head, words, seen, plates);
    }

    private List<Glimpse> glimpses() {
      return picture.stream().map(Glimpse::of).toList();
    }

    private String lamp(int head, HeadType type, Lit lamp) {
      String at = places.get(head) + " head";
      return type.lamps().size() == 1
          ? "the " + at
          : "lamp " + type.lamps().get(lamp.lamp()).name() + " of the " + at;
    }
  }
}
