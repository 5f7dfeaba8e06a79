package dev.doublet.cli;

import dev.doublet.Build;
import dev.doublet.Compiler;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.layout.Layout;
import dev.doublet.page.FindingsPage;
import dev.doublet.page.LayoutPage;
import dev.doublet.report.Summary;
import dev.doublet.show.Broker;
import dev.doublet.show.Events;
import dev.doublet.show.PageServer;
import dev.doublet.source.Visible;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.FileSystemException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code show}: the page of a layout, served to this machine, following its files. */
@Command(
    name = "show",
    mixinStandardHelpOptions = true,
    description =
        "Serves the page of a layout to browsers on this machine, and prints its address. It follows"
            + " the files: what is saved is checked and built, and stands on the page at once. With"
            + " --broker it shows what arrives on the topics of the layout. Ends with Ctrl-C.")
final class ShowVerb implements Callable<Integer> {
  private static final int MILLIS_BETWEEN_LOOKS = 20;
  private static final int ANY_FREE = 0;

  private final Terminal terminal;

  @Parameters(paramLabel = "LAYOUT", description = "a layout (.yaml)")
  private String path = "";

  @Option(names = "--port", paramLabel = "N", description = "a port; without, any that is free")
  private String port = "";

  @Option(
      names = "--address",
      paramLabel = "ADDRESS",
      description =
          "an address of this machine other than its loopback address; who reaches it and knows the"
              + " whole address of the page sees the page")
  private String address = "";

  @Mixin private final BrokerOptions broker = new BrokerOptions();

  @Option(
      names = "--publish",
      description =
          "publishes on the layout's topics what is sent on the page; without, nothing ever is")
  private boolean publish;

  private final Events events = new Events();
  private int version;
  private int texts;
  private Optional<Broker> joined = Optional.empty();

  ShowVerb(Terminal terminal) {
    this.terminal = terminal;
  }

  @Override
  public Integer call() throws IOException {
    int asked = port.isEmpty() ? ANY_FREE : new WholeNumber("--port", "", 1, 65_535).of(port);
    Optional<String> mistake =
        publish && !broker.isAsked()
            ? Optional.of("--publish goes with --broker")
            : broker.mistake();
    if (mistake.isPresent()) {
      terminal.complain(mistake.get());
      return Main.COULD_NOT_RUN;
    }
    FileWatch files = FileWatch.of(terminal.folder(), path);
    String layout = Inputs.layout(path, terminal.folder(), files);
    Build build = Compiler.build(layout, files);
    if (build.files().isEmpty()) {
      terminal.show(Summary.of(build.checked().diagnostics(), 1, build.checked().skipped(), false));
      terminal.complain(
          build.refusal().isEmpty() ? "there is nothing to show yet" : build.refusal());
      return build.refusal().isEmpty() ? Main.FINDINGS : Main.COULD_NOT_RUN;
    }
    broker.caution().ifPresent(terminal::complain);
    joined = broker();
    try (PageServer server = server(asked)) {
      Thread end = new Thread(() -> end(server));
      Runtime.getRuntime().addShutdownHook(end);
      show(server, build);
      terminal.print(server.address() + "\n");
      terminal.bytes().flush();
      follow(server, layout, files);
      Runtime.getRuntime().removeShutdownHook(end);
    } finally {
      joined.ifPresent(Broker::close);
    }
    return Main.CLEAN;
  }

  private void end(PageServer server) {
    server.close();
    joined.ifPresent(Broker::close);
  }

  private Optional<Broker> broker() throws IOException {
    if (!broker.isAsked()) {
      return Optional.empty();
    }
    return Optional.of(Broker.of(broker.place(terminal.folder()), publish, events));
  }

  private PageServer server(int asked) throws IOException {
    InetAddress at =
        address.isEmpty() ? InetAddress.getLoopbackAddress() : InetAddress.getByName(address);
    try {
      return PageServer.at(
          new InetSocketAddress(at, asked),
          events,
          (topic, payload) ->
              joined.isPresent()
                  ? joined.get().publish(topic, payload)
                  : Optional.of("There is no broker here."));
    } catch (IOException e) {
      String place = at.getHostAddress() + (asked == ANY_FREE ? "" : " port " + asked);
      throw new FileSystemException(
          Visible.line(place),
          null,
          asked == ANY_FREE
              ? "nothing can be served there, as this machine has no such address"
              : "nothing can be served there: another program has that port, or this machine no such"
                  + " address; without --port any port that is free is taken");
    }
  }

  /** Shows every change until the thread is interrupted. */
  private void follow(PageServer server, String layout, FileWatch first) throws IOException {
    FileWatch files = first;
    try {
      while (true) {
        Thread.sleep(MILLIS_BETWEEN_LOOKS);
        if (files.isChanged()) {
          files = FileWatch.of(terminal.folder(), path);
          show(server, Compiler.build(layout, files));
        }
      }
    } catch (InterruptedException ended) {
      Thread.currentThread().interrupt();
    }
  }

  /** Shows what was built; of what has errors only the findings, beside the last good picture. */
  private void show(PageServer server, Build build) {
    if (!build.files().isEmpty()) {
      Layout layout = build.checked().value().orElseThrow().layout();
      version++;
      server.show(LayoutPage.live(layout, PageVerb.tables(build, layout), version));
      events.tell("layout", "layout", Integer.toString(version));
      joined.ifPresent(b -> b.follow(topics(layout)));
    }
    FindingsPage found =
        FindingsPage.of(
            build.checked().diagnostics().stream().filter(Diagnostic::isFinding).toList());
    server.tell(found.html());
    List<String> lines = new ArrayList<>(List.of(Integer.toString(++texts)));
    if (!build.refusal().isEmpty()) {
      lines.add("- " + Visible.line(build.refusal()));
    }
    lines.addAll(found.lines());
    String sort = build.files().isEmpty() ? "broken" : "sound";
    events.tell(sort, "findings", String.join("\n", lines));
  }

  private static Set<String> topics(Layout layout) {
    return layout.controllers().stream()
        .flatMap(controller -> controller.units().stream())
        .map(unit -> unit.command().topic())
        .filter(topic -> !topic.isEmpty())
        .collect(Collectors.toCollection(TreeSet::new));
  }
}
