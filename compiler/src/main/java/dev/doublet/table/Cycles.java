package dev.doublet.table;

import java.util.ArrayList;
import java.util.List;

/**
 * Kinds that follow one another again and again, so that a run of units need not name each of its
 * kinds. A run is a kind, or 128 and a place in the cycles.
 */
final class Cycles {
  private static final int TOP = 0x80;

  /** A place in the cycles has seven bits. */
  private static final int ROOM = 128;

  private static final int LONGEST = 64;

  /** What a run costs at least, so that one cycle may save it. */
  private static final int RUN = 3;

  private final List<Integer> bytes = new ArrayList<>();

  /** The cycles that shorten a table whose chains have units of these kinds, in order. */
  static Cycles of(List<List<Integer>> chains) {
    Cycles cycles = new Cycles();
    for (List<Integer> kinds : chains) {
      int at = 0;
      while (at < kinds.size()) {
        at += cycles.take(kinds.subList(at, kinds.size()));
      }
    }
    return cycles;
  }

  /** Adds the cycle that saves most at the start of some kinds; returns how many kinds are done. */
  private int take(List<Integer> kinds) {
    int plain = plain(kinds);
    int most = 0;
    int best = 0;
    int length = plain;
    for (int period = 2; period <= Math.min(LONGEST, kinds.size()); period++) {
      int covered = period;
      while (covered < kinds.size() && kinds.get(covered).equals(kinds.get(covered - period))) {
        covered++;
      }
      int turns = 0;
      for (int i = 1; i < covered; i++) {
        turns += kinds.get(i).equals(kinds.get(i - 1)) ? 0 : 1;
      }
      int saved = RUN * turns - (period + 1);
      if (saved > most && bytes.size() + period + 1 <= ROOM) {
        most = saved;
        best = period;
        length = covered;
      }
    }
    if (best > 0 && covered(run(kinds, length), kinds, length) < length) {
      int start = bytes.size();
      bytes.addAll(kinds.subList(0, best));
      bytes.add(TOP | start);
    }
    return length;
  }

  private static int plain(List<Integer> kinds) {
    int same = 1;
    while (same < kinds.size() && kinds.get(same).equals(kinds.get(0))) {
      same++;
    }
    return same;
  }

  /** The run that covers most of some kinds, at most so many. */
  int run(List<Integer> kinds, int most) {
    int best = kinds.get(0);
    int covered = covered(best, kinds, most);
    for (int place = 0; place < bytes.size() && covered < Math.min(most, kinds.size()); place++) {
      int here = covered(TOP | place, kinds, most);
      if (here > covered) {
        covered = here;
        best = TOP | place;
      }
    }
    return best;
  }

  /** How many of some kinds a run covers, at most so many. */
  int covered(int run, List<Integer> kinds, int most) {
    int limit = Math.min(most, kinds.size());
    int done = 0;
    if (run < TOP) {
      while (done < limit && kinds.get(done) == run) {
        done++;
      }
      return done;
    }
    int place = run & ~TOP;
    while (done < limit && bytes.get(place).equals(kinds.get(done))) {
      done++;
      place++;
      if (bytes.get(place) >= TOP) {
        place = bytes.get(place) & ~TOP;
      }
    }
    return done;
  }

  /** The section. */
  List<Integer> bytes() {
    return List.copyOf(bytes);
  }
}
