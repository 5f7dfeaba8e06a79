package dev.doublet.table;

import dev.doublet.colour.Fade;
import dev.doublet.table.TableModel.Chain;
import dev.doublet.table.TableModel.Flash;
import dev.doublet.table.TableModel.Glow;
import dev.doublet.table.TableModel.Kind;
import dev.doublet.table.TableModel.Rhythm;
import java.util.List;

/**
 * Lights the LEDs of a {@link TableReader} as the reader in C does with {@code DOUBLET_FADES}:
 * filament lamps glow, and vanes pass their middle colour.
 */
public final class FadingReader {
  static final int SWING = dev.doublet.layout.Glow.SWING;

  /** Steps of 4 ms after which nothing changes any more. */
  private static final int RISEN = 128;

  private static final int STEP = 4;
  private static final int FULL = 255;
  private static final int DARK = 0x80;

  private final TableReader reader;
  private final TableModel model;

  /** A controller that takes commands through a reader. */
  public FadingReader(TableReader reader) {
    this.reader = reader;
    this.model = reader.model();
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
    for (int unit = 0; unit < model.units().size(); unit++) {
      int led = model.units().get(unit).led() - first;
      if (led >= 0 && led < sent.leds()) {
        reader.settle(unit, millis);
        if (reader.age(unit, millis) >= RISEN) {
          reader.come(unit);
        }
        Kind kind = model.kinds().get(model.units().get(unit).kind());
        int each = kind.look().each();
        for (int i = 0; reader.test() == 0 && i < kind.look().leds() * each; i++) {
          light(unit, i, sent, millis, bytes, (led + i / each) * sent.channels());
        }
      }
    }
    return reader.test() > 0 ? reader.leds(chain, millis) : bytes;
  }

  /** Works out one LED, or one channel of it. */
  private void light(int unit, int led, Chain chain, long millis, byte[] bytes, int at) {
    Kind kind = model.kinds().get(model.units().get(unit).kind());
    List<Glow> glows = kind.look().glows();
    Glow glow = glows.isEmpty() ? new Glow(false, 0) : glows.get(led);
    int now = light(kind, reader.shown(unit), led);
    int was = light(kind, reader.before(unit), led);
    int colour = colour(now);
    int old = colour(was);
    int level = level(now, millis, glow.filament());
    int rest = 0;
    int age = STEP * reader.age(unit, millis);
    if (now != was && glow.middle() > 0 && now > 0 && was > 0) {
      colour = passing(old, colour, glow.middle(), age);
    } else if (now != was && glow.filament()) {
      rest = scaled(level(was, millis, true), Fade.FALL.level(age));
      level = colour == old ? level : scaled(level, Fade.RISE.level(age));
    }
    int each = kind.look().each();
    int brightness = model.units().get(unit).level();
    for (int channel = 0; channel < chain.channels(); channel++) {
      if (each == 1 || channel == led % each) {
        int rising = level == 0 ? 0 : scaled(drive(chain, brightness, colour, channel), level);
        int falling = rest == 0 ? 0 : scaled(drive(chain, brightness, old, channel), rest);
        bytes[at + channel] = (byte) Math.max(rising, falling);
      }
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

  private int drive(Chain chain, int brightness, int colour, int channel) {
    return reader.palette(chain, brightness).get((colour - 1) * chain.channels() + channel);
  }

  private static int light(Kind kind, int state, int led) {
    return (state & DARK) != 0 ? 0 : kind.look().states().get(state).lights().get(led);
  }

  private int colour(int light) {
    return light <= model.colours() ? light : flash(light).colour();
  }

  private Flash flash(int light) {
    return model.flashing().get(light - model.colours() - 1);
  }

  /** How far its rhythm lets a light shine, 0 to 255. */
  private int level(int light, long millis, boolean filament) {
    if (light <= model.colours()) {
      return light == 0 ? 0 : FULL;
    }
    Flash flash = flash(light);
    Rhythm rhythm = model.rhythms().get(flash.rhythm());
    int into = (int) (millis % rhythm.period());
    boolean inFirst = into < rhythm.first();
    boolean lit = inFirst != flash.darkFirst();
    if (!filament) {
      return lit ? FULL : 0;
    }
    int sinceTurn = inFirst ? into : into - rhythm.first();
    if (lit) {
      return Fade.RISE.level(sinceTurn);
    }
    int wasLit = flash.darkFirst() ? Math.max(0, rhythm.period() - rhythm.first()) : rhythm.first();
    return scaled(Fade.FALL.level(sinceTurn), Fade.RISE.level(wasLit));
  }

  private static int scaled(int full, int level) {
    return (full * level + FULL / 2) / FULL;
  }
}
