package dev.doublet.oracle;

import com.github.javabdd.BDDFactory;
import java.lang.reflect.Method;

/** Keeps JavaBDD from writing to the console whenever it tidies its memory. */
public final class Silence {
  private Silence() {}

  /** Takes away what a factory says of its garbage collections and of its growth. */
  static void of(BDDFactory factory) {
    try {
      Method collected =
          Silence.class.getMethod("collected", Integer.class, BDDFactory.GCStats.class);
      Method resized = Silence.class.getMethod("resized", Integer.class, Integer.class);
      factory.registerGCCallback(null, collected);
      factory.registerResizeCallback(null, resized);
    } catch (NoSuchMethodException missing) {
      throw new IllegalStateException(missing);
    }
  }

  /** Hears of a garbage collection. */
  public static void collected(Integer before, BDDFactory.GCStats stats) {}

  /** Hears of a larger table of nodes. */
  public static void resized(Integer before, Integer after) {}
}
