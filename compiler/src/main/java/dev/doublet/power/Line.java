package dev.doublet.power;

import dev.doublet.layout.Cable;
import dev.doublet.layout.Chain;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The cable along one section of a chain as a line of two wires, solved by Kirchhoff's current law:
 * LEDs and feeds stand at places along it, and feeds lead power in through wires that may resist. A
 * feed without loss holds its place at the supply's voltage, and so parts the line into {@link
 * Stretch}es.
 */
final class Line {
  /** Wires of less resist nothing. */
  private static final double NO_OHMS = 1e-9;

  private final int first;
  private final int last;
  private final double[] places;
  private final int[] placeOf;
  private final double[] ohms;
  private final double[] siemens;
  private final int[] holding;

  /** The solution from the start on and what flows toward it there, and the same from the end. */
  private final double[] near;

  private final double[] nearFlow;
  private final double[] far;
  private final double[] farFlow;

  /** What the product of both is more than ohms, in the stretch of each place. */
  private final double[] too;

  /** For each place that is not held, the held places beside its stretch; -1 and one too many. */
  private final int[] heldBefore;

  private final int[] heldAfter;
  private final List<Stretch> stretches = new ArrayList<>();

  /**
   * What a feed leads in, as a weight for each LED's current.
   *
   * @param all what it leads in
   * @param before what of it flows toward the line's start; less than 0 for what passes it there
   * @param after what of it flows toward the line's end
   */
  record Inlet(double[] all, double[] before, double[] after) {}

  private Line(Chain chain, Chain.Section section) {
    Cable cable = chain.cable();
    first = section.from();
    last = section.to();
    places = places(chain, section);
    placeOf = new int[last + 1];
    for (int led = first; led <= last; led++) {
      placeOf[led] = place(cable.at(led, chain.leds()));
    }
    int size = places.length;
    ohms = new double[Math.max(0, size - 1)];
    for (int i = 0; i < ohms.length; i++) {
      ohms[i] = 2 * cable.ohmsPerMetre() * (places[i + 1] - places[i]);
    }
    siemens = new double[size];
    holding = new int[size];
    for (int feed : section.feeds()) {
      int place = place(cable.at(feed, chain.leds()));
      double lead = lead(chain, feed);
      if (lead > NO_OHMS) {
        siemens[place] += 1 / lead;
      } else {
        holding[place]++;
      }
    }
    near = new double[size];
    nearFlow = new double[size];
    far = new double[size];
    farFlow = new double[size];
    too = new double[size];
    heldBefore = new int[size];
    heldAfter = new int[size];
    solve();
  }

  /** Of a section with at least one LED and one feed. */
  static Line of(Chain chain, Chain.Section section) {
    return new Line(chain, section);
  }

  private static double lead(Chain chain, int feed) {
    return chain.cable().lay().feed(feed).map(f -> f.wire().ohms()).orElse(0.0);
  }

  private static double[] places(Chain chain, Chain.Section section) {
    double[] all = new double[section.to() - section.from() + 1 + section.feeds().size()];
    int next = 0;
    for (int led = section.from(); led <= section.to(); led++) {
      all[next++] = chain.cable().at(led, chain.leds());
    }
    for (int feed : section.feeds()) {
      all[next++] = chain.cable().at(feed, chain.leds());
    }
    return Arrays.stream(all).sorted().distinct().toArray();
  }

  private int place(double metres) {
    return Arrays.binarySearch(places, metres);
  }

  private void solve() {
    int size = places.length;
    int start = -1;
    for (int end = 0; end <= size; end++) {
      if (end == size || holding[end] > 0) {
        solve(start, end);
        start = end;
      }
    }
  }

  /** Between two held places, or ends of the line. */
  private void solve(int start, int end) {
    double light = start < 0 ? 1 : 0;
    double flow = start < 0 ? 0 : 1;
    for (int i = start + 1; i < end; i++) {
      light += i == 0 ? 0 : ohms[i - 1] * flow;
      flow += siemens[i] * light;
      near[i] = light;
      nearFlow[i] = flow;
    }
    light = end == places.length ? 1 : 0;
    flow = end == places.length ? 0 : 1;
    for (int i = end - 1; i > start; i--) {
      light += i == places.length - 1 ? 0 : ohms[i] * flow;
      farFlow[i] = flow;
      flow += siemens[i] * light;
      far[i] = light;
    }
    for (int i = start + 1; i < end; i++) {
      too[i] = nearFlow[start + 1] * far[start + 1] + farFlow[start + 1] * near[start + 1];
      heldBefore[i] = start;
      heldAfter[i] = end;
    }
    int from = first;
    while (from <= last && placeOf[from] <= start) {
      from++;
    }
    int to = from - 1;
    while (to < last && placeOf[to + 1] < end) {
      to++;
    }
    double[] nears = new double[to - from + 1];
    double[] fars = new double[to - from + 1];
    for (int led = from; led <= to; led++) {
      nears[led - from] = near[placeOf[led]];
      fars[led - from] = far[placeOf[led]] / too[placeOf[led]];
    }
    stretches.add(new Stretch(from, to, nears, fars));
  }

  /** Its stretches, from its start; those without LEDs too. */
  List<Stretch> stretches() {
    return stretches;
  }

  /** What one of its feeds leads in, with weights of LEDs from the line's first. */
  Inlet inlet(Chain chain, int feed) {
    int at = place(chain.cable().at(feed, chain.leds()));
    int count = last - first + 1;
    Inlet inlet = new Inlet(new double[count], new double[count], new double[count]);
    double lead = lead(chain, feed);
    for (int led = first; led <= last; led++) {
      if (holding[at] == 0) {
        resisting(inlet, led, at, 1 / lead);
      } else if (lead <= NO_OHMS) {
        holding(inlet, led, at, 1.0 / holding[at]);
      }
    }
    return inlet;
  }

  /** A feed without loss, or one of several at its place. */
  private void holding(Inlet inlet, int led, int at, double part) {
    int place = placeOf[led];
    int i = led - first;
    if (place == at) {
      inlet.all()[i] = part;
    } else if (place < at && holding[place] == 0 && heldAfter[place] == at) {
      inlet.before()[i] = near[place] / too[place];
      inlet.all()[i] = part * inlet.before()[i];
    } else if (place > at && holding[place] == 0 && heldBefore[place] == at) {
      inlet.after()[i] = far[place] / too[place];
      inlet.all()[i] = part * inlet.after()[i];
    }
  }

  private void resisting(Inlet inlet, int led, int at, double siemensOfLead) {
    int place = placeOf[led];
    int i = led - first;
    if (holding[place] > 0 || heldBefore[place] != heldBefore[at]) {
      return;
    }
    double towardStart = nearFlow[at] - siemens[at] * near[at];
    if (place < at) {
      double by = near[place] / too[place];
      inlet.all()[i] = siemensOfLead * by * far[at];
      inlet.before()[i] = by * (farFlow[at] + siemens[at] * far[at]);
      inlet.after()[i] = -by * farFlow[at];
    } else {
      double by = far[place] / too[place];
      inlet.all()[i] = siemensOfLead * by * near[at];
      inlet.before()[i] = -by * towardStart;
      inlet.after()[i] = place == at ? -near[place] / too[place] * farFlow[at] : by * nearFlow[at];
    }
  }
}
