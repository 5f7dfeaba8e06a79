package dev.doublet.layout;

/**
 * The cable along a chain: one wire out and one like it back.
 *
 * @param gauge AWG number; -1 when the cross-section was given instead
 * @param squareMillimetres copper of each wire; 0 when nothing was said
 * @param metres from the supply to the last LED; 0 when nothing was said
 * @param lay how it lies
 */
public record Cable(int gauge, double squareMillimetres, double metres, Lay lay) {
  /** Nothing was said. */
  public static final Cable UNSAID = new Cable(-1, 0, 0, Lay.EVEN);

  /** Annealed copper at 20 °C in ohm square millimetres a metre (IEC 60028). */
  private static final double RESISTIVITY = 0.017241;

  /** A cable of a gauge, by the diameters of ASTM B258: 0.127 mm for AWG 36, 92 times AWG 0000. */
  public static Cable ofGauge(int gauge, double metres) {
    double diameter = 0.127 * Math.pow(92, (36 - gauge) / 39.0);
    return new Cable(gauge, Math.PI * diameter * diameter / 4, metres, Lay.EVEN);
  }

  /** A cable of a cross-section in square millimetres. */
  public static Cable ofArea(double squareMillimetres, double metres) {
    return new Cable(-1, squareMillimetres, metres, Lay.EVEN);
  }

  /** The same wires where they lie otherwise. */
  public Cable lying(double metres, Lay lay) {
    return new Cable(gauge, squareMillimetres, metres, lay);
  }

  /** Metres along it from its start to a LED, from 1, of so many; 0 is its start. */
  public double at(int led, int leds) {
    return led == 0 ? 0 : lay.at().isEmpty() ? metres * led / leds : lay.at().get(led - 1);
  }

  /** Ohms from one end to the other, out and back. */
  public double ohms() {
    return isSaid() ? 2 * ohmsPerMetre() * metres : 0;
  }

  /** True when the layout has one. */
  public boolean isSaid() {
    return metres > 0;
  }

  /** Ohms of one metre of one of its wires, solid and at 20 °C. */
  public double ohmsPerMetre() {
    return RESISTIVITY / squareMillimetres;
  }

  /** "AWG 24", or "0.25 mm²". */
  public String words() {
    return gauge >= 0 ? "AWG " + gauge : shortest(squareMillimetres) + " mm²";
  }

  private static String shortest(double number) {
    return number == Math.rint(number) ? Long.toString((long) number) : Double.toString(number);
  }
}
