package dev.doublet.chart;

import dev.doublet.bus.Accessory;
import dev.doublet.bus.Packet;
import dev.doublet.diagnostic.Words;
import dev.doublet.layout.Answer;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Message;
import dev.doublet.layout.Signal;
import dev.doublet.layout.State;
import dev.doublet.layout.Unit;
import dev.doublet.layout.Way;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/**
 * What every command of a layout calls up: what somebody with a throttle walks through.
 *
 * @param heard every unit, controller by controller, in chain order
 */
public record Answers(List<Heard> heard) {

  /** Copies the list. */
  public Answers {
    heard = List.copyOf(heard);
  }

  /**
   * One unit and all that can be sent to it.
   *
   * @param controller its controller's name
   * @param unit the unit
   * @param called what calls up a state, by value
   * @param unanswered what calls up nothing, in words; empty when everything calls up something
   * @param note what to know of its signal; may be empty
   * @param movers what moves its arms, in words: "servo 0 moves home"; empty where nothing does
   * @param then what is shown after that: a state's name, or empty when nothing changes
   */
  public record Heard(
      String controller,
      Unit unit,
      String note,
      List<String> movers,
      List<Called> called,
      String unanswered,
      String then) {

    /** Copies the lists. */
    public Heard {
      movers = List.copyOf(movers);
      called = List.copyOf(called);
    }
  }

  /**
   * A value and what it calls up.
   *
   * @param value the number received; for payloads that are names and for listed events, the number
   *     of the state
   * @param sent what is sent, one after the other
   * @param state what is then shown
   * @param byNight what its lamps show where the picture has arms: "red over green"; else empty
   * @param stands where servos and motors hold its arms, in words: "1640 µs"; may be empty
   */
  public record Called(
      int value, List<Sent> sent, State state, String byNight, List<String> stands) {

    /** Copies the lists. */
    public Called {
      stands = List.copyOf(stands);
      sent = List.copyOf(sent);
    }
  }

  /**
   * One thing sent.
   *
   * @param address the DCC address as users count it; 0 on other buses
   * @param binary the 11-bit address in the packet; 0 on other buses
   * @param what for a basic address its output, {@code normal} or {@code reverse}; for a topic the
   *     payload; for an event the event; else empty
   * @param packet the DCC packet in hex, error byte included; empty on other buses
   */
  public record Sent(int address, int binary, String what, String packet) {}

  /** Works out every answer of a layout. */
  public static Answers of(Layout layout) {
    List<Heard> heard = new ArrayList<>();
    for (Controller controller : layout.controllers()) {
      for (Signal signal : controller.signals()) {
        signal.units().forEach(u -> heard.add(heard(controller, signal, u)));
      }
    }
    return new Answers(heard);
  }

  /** The same for the units of one signal alone. */
  public Answers ofSignal(String name) {
    return new Answers(heard.stream().filter(h -> h.unit().signal().equals(name)).toList());
  }

  private static Heard heard(Controller controller, Signal signal, Unit unit) {
    Kind kind = unit.kind();
    List<Called> called = new ArrayList<>();
    for (Answer answer : kind.answers()) {
      if (capacity(unit) == 0 || answer.value() < capacity(unit)) {
        State state = kind.states().get(answer.state());
        called.add(
            new Called(
                answer.value(),
                kind.way().calling(unit, answer).stream().map(m -> sent(unit, m)).toList(),
                state,
                Arms.byNight(signal, unit, state),
                Arms.stands(unit, state)));
      }
    }
    boolean stays = kind.otherwise() == Kind.Otherwise.KEEP || kind.way() instanceof Way.Event;
    String then = stays ? "" : kind.states().get(kind.rest()).name();
    return new Heard(
        controller.name(),
        unit,
        signal.note(),
        Arms.movers(signal, unit),
        called,
        unanswered(unit),
        then);
  }

  private static Sent sent(Unit unit, Message message) {
    if (message instanceof Message.ToAccessory to) {
      int binary = Accessory.binary(to.address(), unit.command().bus().firstDecoder());
      String output = "";
      if (to.packet() instanceof Packet.BasicAccessory basic) {
        output = basic.output() == 1 ? "normal" : "reverse";
      }
      return new Sent(to.address(), binary, output, to.packet().hex());
    }
    if (message instanceof Message.ToTopic to) {
      return new Sent(0, 0, to.payload(), "");
    }
    return new Sent(0, 0, ((Message.ToAll) message).event().toString(), "");
  }

  private static String unanswered(Unit unit) {
    Kind kind = unit.kind();
    if (kind.way() instanceof Way.Topic) {
      return "any other payload";
    }
    if (kind.way() instanceof Way.Event) {
      return "any other event";
    }
    return String.join(
        ", ",
        Words.runs(
            IntStream.range(0, capacity(unit)).filter(v -> kind.stateFor(v) < 0).boxed().toList()));
  }

  private static int capacity(Unit unit) {
    return unit.kind().way().values(unit.command().bus());
  }
}
