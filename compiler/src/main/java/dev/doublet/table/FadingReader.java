package dev.doublet.table;

import dev.doublet.colour.Fade;
import dev.doublet.table.TableModel.Chain;
import dev.doublet.table.TableModel.Glow;
import dev.doublet.table.TableModel.Kind;
import dev.doublet.table.TableModel.Light;
import dev.doublet.table.TableModel.Rhythm;
import java.util.List;

/**
 * Lights the LEDs of a {@link TableReader} as the reader in C does with {@code DOUBLET_FADES}:
 * filament lamps glow, and vanes pass their middle colour. It sees a unit's change of state at the
 * next frame of its chain, so that states which follow one another faster are never lit. It holds
 * state, as the other does.
 */
public final class FadingReader {
  /** What a unit remembers: as without fades, then what is shown, what was before, since when. */
  static final int UNIT = 6;

  /** Milliseconds in which a vane swings from one side to the other; none is published. */
  public static final int SWING = 300;

  /** A fade younger than this many milliseconds is led on to another state, not begun anew. */
  private static final int SOON = 128;

  /** Milliseconds after which nothing changes any more. */
  private static final int RISEN = 512;

  private static final int FULL = 255;
  private static final int DARK = 0x80;

  private final TableReader reader;
  private final TableModel model;
  private final int[] shown;
  private final int[] before;
  private final int[] since;

  /** A controller at power-up, which takes commands through a reader. */
  public FadingReader(TableReader reader) {
    this.reader = reader;
    this.model = reader.model();
    this.shown = model.units().stream().mapToInt(u -> model.kinds().get(u.kind()).rest()).toArray();
    this.before = shown.clone();
    this.since = new int[shown.length];
  }

  /**
   * The bytes for a chain's LEDs, in the order sent.
   *
   * @param chain from 0
   * @param millis time since any moment, at least 0
   */
  public byte[] leds(int chain, long millis) {
    Chain sent = model.chains().get(chain);
    int first = model.firstLed(chain);
    byte[] bytes = new byte[sent.leds() * sent.channels()];
    for (int unit = 0; unit < shown.length; unit++) {
      int led = model.units().get(unit).led() - first;
      if (led >= 0 && led < sent.leds()) {
        turn(unit, millis);
        Kind kind = model.kinds().get(model.units().get(unit).kind());
        for (int i = 0; i < kind.look().leds(); i++) {
          light(unit, i, sent, millis, bytes, (led + i) * sent.channels());
        }
      }
    }
    return bytes;
  }

  private void turn(int unit, long millis) {
    int wanted = reader.state(unit) | (reader.isDark(unit) ? DARK : 0);
    if (wanted != shown[unit]) {
      if (shown[unit] == before[unit] || age(unit, millis) >= SOON) {
        before[unit] = shown[unit];
        since[unit] = (int) millis & 0xFFFF;
      }
      shown[unit] = wanted;
    }
    if (age(unit, millis) >= RISEN) {
      before[unit] = shown[unit];
    }
  }

  private int age(int unit, long millis) {
    return (int) (millis - since[unit]) & 0xFFFF;
  }

  /** Works out one LED. */
  private void light(int unit, int led, Chain chain, long millis, byte[] bytes, int at) {
    Kind kind = model.kinds().get(model.units().get(unit).kind());
    List<Glow> glows = kind.look().glows();
    Glow glow = glows.isEmpty() ? new Glow(false, 0) : glows.get(led);
    int now = light(kind, shown[unit], led);
    int was = light(kind, before[unit], led);
    int colour = colour(now);
    int old = colour(was);
    int level = level(now, millis, glow.filament());
    int rest = 0;
    int age = age(unit, millis);
    boolean changing = shown[unit] != before[unit] && now != was;
    if (changing && glow.middle() > 0 && now > 0 && was > 0) {
      colour = passing(old, colour, glow.middle(), age);
    } else if (changing && glow.filament()) {
      rest = scaled(level(was, millis, true), Fade.FALL.level(age));
      level = colour == old ? level : scaled(level, Fade.RISE.level(age));
    }
    for (int channel = 0; channel < chain.channels(); channel++) {
      int rising = level == 0 ? 0 : scaled(drive(chain, colour, channel), level);
      int falling = rest == 0 ? 0 : scaled(drive(chain, old, channel), rest);
      bytes[at + channel] = (byte) Math.max(rising, falling);
    }
  }

  /** The colour before a lamp whose vane swings. */
  private static int passing(int from, int to, int middle, int age) {
    int third = 3 * age / SWING;
    if (third == 0) {
      return from;
    }
    boolean passes = from != to && from != middle && to != middle;
    return third == 1 && passes ? middle : to;
  }

  private int drive(Chain chain, int colour, int channel) {
    return reader.palette(chain).get((colour - 1) * chain.channels() + channel);
  }

  private static int light(Kind kind, int state, int led) {
    return (state & DARK) != 0 ? 0 : kind.look().states().get(state).lights().get(led);
  }

  private int colour(int light) {
    return light == 0 ? 0 : model.lights().get(light - 1).colour();
  }

  /** How far its rhythm lets a light shine, 0 to 255. */
  private int level(int light, long millis, boolean filament) {
    if (light == 0) {
      return 0;
    }
    Light meant = model.lights().get(light - 1);
    if (meant.rhythm() == 0) {
      return FULL;
    }
    Rhythm rhythm = model.rhythms().get(meant.rhythm() - 1);
    int into = (int) (millis % rhythm.period());
    boolean inFirst = into < rhythm.first();
    boolean lit = inFirst != meant.darkFirst();
    if (!filament) {
      return lit ? FULL : 0;
    }
    int sinceTurn = inFirst ? into : into - rhythm.first();
    if (lit) {
      return Fade.RISE.level(sinceTurn);
    }
    int wasLit = meant.darkFirst() ? Math.max(0, rhythm.period() - rhythm.first()) : rhythm.first();
    return scaled(Fade.FALL.level(sinceTurn), Fade.RISE.level(wasLit));
  }

  private static int scaled(int full, int level) {
    return (full * level + FULL / 2) / FULL;
  }

  /** What a controller remembers, as {@link TableReader#memory} and then of fades. */
  byte[] memory() {
    byte[] plain = reader.memory();
    byte[] memory = new byte[UNIT * shown.length];
    for (int unit = 0; unit < shown.length; unit++) {
      int at = UNIT * unit;
      System.arraycopy(plain, 2 * unit, memory, at, 2);
      memory[at + 2] = (byte) shown[unit];
      memory[at + 3] = (byte) before[unit];
      memory[at + 4] = (byte) since[unit];
      memory[at + 5] = (byte) (since[unit] >> 8);
    }
    return memory;
  }
}
