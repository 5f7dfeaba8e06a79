package dev.doublet.layout;

import dev.doublet.rulebook.Display;
import java.util.Collections;
import java.util.List;
import java.util.OptionalInt;
import java.util.stream.IntStream;

/**
 * A servo that moves a semaphore arm. Servos take a pulse every 20 ms or so, whose length says
 * where they stand: 1,000 to 2,000 µs for most, 500 to 2,500 µs for some (common practice, from
 * memory).
 *
 * <p>In its place may be a motor that keeps where it stands, at one of two ends: a sketch lets
 * current flow, for a while, in the coil of the end at which the pulse has come past {@link
 * #MIDDLE}.
 *
 * @param channel which of its controller's servos it is, from 0
 * @param place of the arm among the heads of its unit, from the top
 * @param positions of the arm, as it moves
 * @param pulses microseconds for each of them, {@link #LEAST} to {@link #MOST}
 * @param travel milliseconds from one end to the other, at most; of a motor, of the pulse
 * @param coilTime milliseconds for which current flows in a coil of a motor; empty for a servo
 */
public record Servo(
    int channel,
    int place,
    List<String> positions,
    List<Integer> pulses,
    int travel,
    OptionalInt coilTime) {
  /** The shortest pulse. */
  public static final int LEAST = 500;

  /** The longest pulse. */
  public static final int MOST = 2_500;

  /** The quickest an arm is moved: a servo alone takes a tenth of a second or two (from memory). */
  public static final int QUICKEST = 200;

  /** The slowest: our choice. */
  public static final int SLOWEST = 4_000;

  /** What an arm takes unless it is said: our choice. */
  public static final int TRAVEL = 1_000;

  /** How many positions a motor has that keeps where it stands. */
  public static final int ENDS = 2;

  /** The pulse at which such a motor is sent to its other end. */
  public static final int MIDDLE = 1_500;

  /** The shortest flow of current: our choice. */
  public static final int LEAST_COIL_TIME = 10;

  /** The longest: our choice, as coils that take current for long get hot (from memory). */
  public static final int MOST_COIL_TIME = 2_000;

  /** For how long current flows unless it is said: our choice. */
  public static final int COIL_TIME = 100;

  private static final int FIRST = 1_000;
  private static final int LAST = 2_000;

  /** Copies the lists. */
  public Servo {
    positions = List.copyOf(positions);
    pulses = List.copyOf(pulses);
  }

  /** Pulses for so many positions, evenly from 1,000 to 2,000 µs: our choice. */
  public static List<Integer> even(int positions) {
    return IntStream.range(0, positions)
        .mapToObj(i -> FIRST + (LAST - FIRST) * i / (positions - 1))
        .toList();
  }

  /** A servo, which has no coils. */
  public Servo(int channel, int place, List<String> positions, List<Integer> pulses, int travel) {
    this(channel, place, positions, pulses, travel, OptionalInt.empty());
  }

  /** A motor in place of a servo, whose pulse goes from one end to the other as fast as any. */
  public static Servo motor(int channel, int place, List<String> ends, int coilTime) {
    return new Servo(channel, place, ends, even(ENDS), QUICKEST, OptionalInt.of(coilTime));
  }

  /** The same at another place. */
  public Servo at(int other) {
    return new Servo(channel, other, positions, pulses, travel, coilTime);
  }

  /** True for a motor that keeps where it stands. */
  public boolean isMotor() {
    return coilTime.isPresent();
  }

  /** The pulse while its unit shows a picture. */
  public int pulse(List<Display> picture) {
    return pulses.get(positions.indexOf(picture.get(place).look()));
  }

  /** How far its pulses reach. */
  public int swing() {
    return Collections.max(pulses) - Collections.min(pulses);
  }
}
