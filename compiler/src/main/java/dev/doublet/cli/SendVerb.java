package dev.doublet.cli;

import dev.doublet.Build;
import dev.doublet.Compiler;
import dev.doublet.broker.BoardState;
import dev.doublet.broker.Boards;
import dev.doublet.broker.SendPlan;
import dev.doublet.broker.SendResult;
import dev.doublet.broker.TableOffer;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Controller;
import dev.doublet.report.Summary;
import dev.doublet.table.TableDecoder;
import dev.doublet.table.TableFault;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code send}: tables to the boards at an MQTT broker, and what each of them runs. */
@Command(
    name = "send",
    mixinStandardHelpOptions = true,
    description =
        "Builds a layout, and sends each controller that listens to MQTT its table, where the board"
            + " of its name runs another. Says which board runs which table. A board that was never"
            + " at the broker is sent nothing unless it is named.")
final class SendVerb implements Callable<Integer> {
  private static final int MILLIS_TO_SAY = 2_000;
  private static final int MOST_BYTES = 0x10000;
  private static final int MOST_SECONDS = 3_600;

  private final Terminal terminal;

  @Parameters(paramLabel = "LAYOUT", description = "a layout (.yaml)")
  private String path = "";

  @Mixin private final BrokerOptions broker = new BrokerOptions();

  @Option(
      names = "--to",
      paramLabel = "CONTROLLER",
      description = "this controller and no other, even if its board never was at the broker")
  private final Set<String> only = new TreeSet<>();

  @Option(
      names = "--table",
      paramLabel = "CONTROLLER=FILE",
      description = "a table (.bin) built before, to go back to; other controllers get none")
  private final Map<String, String> earlier = new LinkedHashMap<>();

  @Option(names = "--dry-run", description = "sends nothing, and says what would be sent")
  private boolean dry;

  @Option(
      names = "--wait",
      paramLabel = "SECONDS",
      description = "how long boards have to answer; 10 as usual")
  private String wait = "10";

  SendVerb(Terminal terminal) {
    this.terminal = terminal;
  }

  @Override
  public Integer call() throws IOException {
    Optional<String> mistake = mistake();
    if (mistake.isPresent()) {
      terminal.complain(mistake.get());
      return Main.COULD_NOT_RUN;
    }
    int seconds = new WholeNumber("--wait", "seconds", 1, MOST_SECONDS).of(wait);
    Disk disk = new Disk(terminal.folder(), List.of(path));
    Build build = Compiler.build(Inputs.layout(path, terminal.folder(), disk), disk);
    if (build.files().isEmpty()) {
      terminal.show(Summary.of(build.checked().diagnostics(), 1, build.checked().skipped(), false));
      terminal.complain(build.refusal().isEmpty() ? "nothing was sent" : build.refusal());
      return build.refusal().isEmpty() ? Main.FINDINGS : Main.COULD_NOT_RUN;
    }
    Set<String> asked = new TreeSet<>(only);
    asked.addAll(earlier.keySet());
    List<Controller> all = build.checked().value().orElseThrow().layout().controllers();
    Set<String> known = all.stream().map(Controller::name).collect(Collectors.toSet());
    for (String name : asked) {
      if (!known.contains(name)) {
        terminal.complain("no controller of " + path + " is called \"" + name + "\"");
        return Main.COULD_NOT_RUN;
      }
    }
    List<TableOffer> offers = new ArrayList<>();
    for (Controller controller : all) {
      String name = controller.name();
      if (asked.isEmpty() ? listens(controller) : asked.contains(name)) {
        try {
          offers.add(offer(name, build));
        } catch (TableFault fault) {
          terminal.complain(
              earlier.get(name) + " is refused: " + fault.getMessage() + "; nothing was sent");
          return Main.FINDINGS;
        }
      }
    }
    if (offers.isEmpty()) {
      terminal.complain("no controller of " + path + " listens to MQTT, so none takes a table");
      return Main.COULD_NOT_RUN;
    }
    broker.caution().ifPresent(terminal::complain);
    return send(offers, asked, 1000 * seconds);
  }

  private Optional<String> mistake() {
    if (!broker.isAsked()) {
      return Optional.of("send takes --broker HOST or --broker HOST:PORT");
    }
    return broker.mistake();
  }

  private static boolean listens(Controller controller) {
    return controller.units().stream()
        .anyMatch(unit -> unit.command().bus().speaks() == Bus.Speaks.MQTT);
  }

  /** The table built before, if one is named, or the one just built. */
  private TableOffer offer(String name, Build build) throws IOException, TableFault {
    byte[] table =
        earlier.containsKey(name) ? bytes(earlier.get(name)) : build.files().get(name + ".bin");
    return new TableOffer(name, TableDecoder.decode(table).edition(), table);
  }

  private byte[] bytes(String file) throws IOException {
    try (InputStream in = Files.newInputStream(terminal.folder().resolve(file))) {
      return in.readNBytes(MOST_BYTES);
    } catch (NoSuchFileException missing) {
      throw new NoSuchFileException(file);
    }
  }

  private int send(List<TableOffer> offers, Set<String> asked, int millis) throws IOException {
    List<String> names = offers.stream().map(TableOffer::controller).toList();
    try (Boards boards = Boards.join(broker.place(terminal.folder()), names)) {
      boards.hear(names, MILLIS_TO_SAY);
      Map<TableOffer, Optional<BoardState>> before = new LinkedHashMap<>();
      Map<TableOffer, SendPlan> plans = new LinkedHashMap<>();
      for (TableOffer offer : offers) {
        String name = offer.controller();
        Optional<BoardState> board = boards.state(name);
        before.put(offer, board);
        plans.put(offer, SendPlan.of(offer, board, boards.kept(name), asked.contains(name)));
      }
      List<TableOffer> sent =
          offers.stream().filter(o -> !dry && plans.get(o) == SendPlan.SEND).toList();
      Map<TableOffer, BoardState> answers = boards.send(sent, millis);
      List<SendResult> results =
          offers.stream()
              .map(
                  o ->
                      new SendResult(
                          o,
                          plans.get(o),
                          before.get(o),
                          Optional.ofNullable(answers.get(o)),
                          boards.state(o.controller()),
                          boards.kept(o.controller()),
                          dry))
              .toList();
      results.forEach(result -> terminal.print(result.text()));
      return results.stream().anyMatch(SendResult::isFailure) ? Main.FINDINGS : Main.CLEAN;
    } catch (Boards.Trouble trouble) {
      terminal.complain(trouble.getMessage());
      return Main.COULD_NOT_RUN;
    } catch (InterruptedException ended) {
      Thread.currentThread().interrupt();
      return Main.COULD_NOT_RUN;
    }
  }
}
