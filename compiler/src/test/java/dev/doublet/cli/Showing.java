package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.PrintStream;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;

/** A run of {@code show}, and what a browser and a stranger may do with it. */
final class Showing implements AutoCloseable {
  private final ByteArrayOutputStream out = new ByteArrayOutputStream();
  private final ByteArrayOutputStream err = new ByteArrayOutputStream();
  private final AtomicInteger code = new AtomicInteger(-1);
  private final Thread run;
  private final List<Listening> listeners = new ArrayList<>();
  private URI address = URI.create("");

  /** An event that a page hears. */
  record Event(String id, String name, String data) {}

  private Showing(Path folder, String... arguments) {
    PrintStream outStream = new PrintStream(out, true, StandardCharsets.UTF_8);
    PrintStream errStream = new PrintStream(err, true, StandardCharsets.UTF_8);
    Terminal terminal = new Terminal(outStream, errStream, false, false, folder);
    run = new Thread(() -> code.set(Main.run(terminal, arguments)), "show");
  }

  /** Begins to show, and waits for the address. */
  static Showing of(Path folder, String... more) throws InterruptedException {
    String[] arguments =
        Stream.concat(Stream.of("show", "layout.yaml"), Stream.of(more)).toArray(String[]::new);
    Showing showing = new Showing(folder, arguments);
    showing.run.start();
    while (!showing.printed().contains("/\n")) {
      assertThat(showing.run.isAlive()).as(showing.complained()).isTrue();
      Thread.sleep(5);
    }
    showing.address = URI.create(showing.printed().strip());
    return showing;
  }

  String printed() {
    return out.toString(StandardCharsets.UTF_8);
  }

  String complained() {
    return err.toString(StandardCharsets.UTF_8);
  }

  URI address() {
    return address;
  }

  String host() {
    return address.getAuthority();
  }

  /** The page as it is served now. */
  String page() throws IOException, InterruptedException {
    return get(address);
  }

  /** The page of the texts in which something was found. */
  String text(int number) throws IOException, InterruptedException {
    return get(address.resolve("text" + number));
  }

  private static String get(URI at) throws IOException, InterruptedException {
    HttpResponse<String> got =
        HttpClient.newHttpClient()
            .send(HttpRequest.newBuilder(at).build(), HttpResponse.BodyHandlers.ofString());
    assertThat(got.statusCode()).isEqualTo(200);
    return got.body();
  }

  /** What comes back for some bytes, which need be no request. */
  String raw(String request) throws IOException {
    try (Socket socket = new Socket(address.getHost(), address.getPort())) {
      socket.setSoTimeout(10_000);
      OutputStream to = socket.getOutputStream();
      to.write(request.getBytes(StandardCharsets.ISO_8859_1));
      to.flush();
      socket.shutdownOutput();
      InputStream from = socket.getInputStream();
      return new String(from.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  /** The status of the answer to a request of these lines. */
  int status(String method, String path, String... headers) throws IOException {
    String lines = headers.length == 0 ? "" : String.join("\r\n", headers) + "\r\n";
    String answer =
        raw(method + " " + path + " HTTP/1.1\r\n" + lines + "Connection: close\r\n\r\n");
    assertThat(answer).startsWith("HTTP/1.1 ").doesNotContain("Exception", "\tat ");
    return Integer.parseInt(answer.substring(9, 12));
  }

  /** Publishes as the page does. */
  HttpResponse<String> publish(String body) throws IOException, InterruptedException {
    return HttpClient.newHttpClient()
        .send(
            HttpRequest.newBuilder(address.resolve("publish"))
                .header("Origin", "http://" + host())
                .POST(HttpRequest.BodyPublishers.ofString(body))
                .build(),
            HttpResponse.BodyHandlers.ofString());
  }

  /** A page that listens. */
  Listening listen(String... headers) throws IOException {
    Listening listening = new Listening(headers);
    listeners.add(listening);
    return listening;
  }

  /** What one page hears. */
  final class Listening implements AutoCloseable {
    private final LinkedBlockingQueue<Event> heard = new LinkedBlockingQueue<>();
    private final java.util.concurrent.CompletableFuture<HttpResponse<Void>> ended;

    private Listening(String... headers) {
      HttpRequest.Builder request = HttpRequest.newBuilder(address.resolve("events"));
      if (headers.length > 0) {
        request.headers(headers);
      }
      List<String> fields = new ArrayList<>();
      ended =
          HttpClient.newHttpClient()
              .sendAsync(
                  request.build(),
                  HttpResponse.BodyHandlers.fromLineSubscriber(
                      new Lines(line -> take(fields, line))));
    }

    private void take(List<String> fields, String line) {
      if (!line.isEmpty()) {
        fields.add(line);
        return;
      }
      Event event = new Event(field(fields, "id"), field(fields, "event"), field(fields, "data"));
      fields.clear();
      if (!event.name().isEmpty()) {
        heard.add(event);
      }
    }

    private String field(List<String> fields, String name) {
      return String.join(
          "\n",
          fields.stream()
              .filter(f -> f.startsWith(name + ":"))
              .map(f -> f.substring(name.length() + 1).strip())
              .toList());
    }

    /** The next event of a name; others that come before are dropped. */
    Event next(String name) throws InterruptedException {
      Event event = next();
      while (!event.name().equals(name)) {
        event = next();
      }
      return event;
    }

    /** The next event of any name. */
    Event next() throws InterruptedException {
      Event event = heard.poll(20, TimeUnit.SECONDS);
      assertThat(event).as("the next event").isNotNull();
      return event;
    }

    /** True when the server has sent this page away. */
    boolean isEnded() throws InterruptedException {
      for (int tries = 0; tries < 1000 && !ended.isDone(); tries++) {
        Thread.sleep(10);
      }
      return ended.isDone();
    }

    @Override
    public void close() {
      ended.cancel(true);
    }
  }

  /** Ends as Ctrl-C would; the exit code. */
  int end() throws InterruptedException {
    run.interrupt();
    run.join(20_000);
    assertThat(run.isAlive()).isFalse();
    return code.get();
  }

  @Override
  public void close() {
    listeners.forEach(Listening::close);
    run.interrupt();
  }
}
