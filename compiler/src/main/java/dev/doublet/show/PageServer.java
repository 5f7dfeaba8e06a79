package dev.doublet.show;

import com.sun.net.httpserver.Headers;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.io.OutputStream;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.HexFormat;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;

/** Serves a page, its events, texts and what it publishes, and nothing else. */
public final class PageServer implements AutoCloseable {
  private static final int MOST_BODY = 1024;

  static {
    // Of the JDK's own server: answers leave at once, and who sends a request has ten seconds.
    System.setProperty("sun.net.httpserver.nodelay", "true");
    System.setProperty("sun.net.httpserver.maxReqTime", "10");
  }

  private final HttpServer server;
  private final ExecutorService threads;
  private final Door door;
  private final String token;
  private final Events events;
  private final Publishing publishing;
  private volatile String page = "";
  private volatile String text = "";

  private PageServer(HttpServer server, String token, Events events, Publishing publishing) {
    this.server = server;
    this.threads =
        Executors.newCachedThreadPool(
            work -> {
              Thread thread = new Thread(work, "page");
              thread.setDaemon(true);
              return thread;
            });
    this.door = new Door(token);
    this.token = token;
    this.events = events;
    this.publishing = publishing;
  }

  /** Takes what a page publishes. */
  @FunctionalInterface
  public interface Publishing {
    /** Publishes; why that could not be, as a sentence, or empty. */
    Optional<String> publish(byte[] topic, byte[] payload);
  }

  /**
   * Begins to serve; the address holds a random word of 128 bits.
   *
   * @param place an address of this machine; port 0 stands for any that is free
   * @throws IOException when it cannot be served there
   */
  public static PageServer at(InetSocketAddress place, Events events, Publishing publishing)
      throws IOException {
    byte[] chance = new byte[16];
    new SecureRandom().nextBytes(chance);
    HttpServer server = HttpServer.create(place, 0);
    PageServer made = new PageServer(server, HexFormat.of().formatHex(chance), events, publishing);
    server.createContext("/", made::handle);
    server.setExecutor(made.threads);
    server.start();
    return made;
  }

  /** The address of the page. */
  public String address() {
    return "http://" + Door.host(server.getAddress()) + "/" + token + "/";
  }

  /** Serves another page from now on. */
  public void show(String html) {
    page = html;
  }

  /** Serves another page of the texts in which something was found. */
  public void tell(String html) {
    text = html;
  }

  @Override
  public void close() {
    events.close();
    server.stop(0);
    threads.shutdownNow();
  }

  private void handle(HttpExchange exchange) {
    try (exchange) {
      Optional<Door.Refusal> refusal = door.refusal(exchange);
      if (refusal.isPresent()) {
        answer(exchange, refusal.get().status(), "text/plain", refusal.get().words() + "\n");
        return;
      }
      switch (door.way(exchange)) {
        case "" -> answer(exchange, 200, "text/html", page);
        case "text" -> answer(exchange, 200, "text/html", text);
        case "events" -> stream(exchange);
        default -> publish(exchange);
      }
    } catch (IOException gone) {
      // Who asked has left.
    } catch (InterruptedException ended) {
      Thread.currentThread().interrupt();
    }
  }

  private static void answer(HttpExchange exchange, int status, String type, String text)
      throws IOException {
    byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
    headers(exchange, type);
    if (exchange.getRequestMethod().equals("HEAD")) {
      exchange.sendResponseHeaders(status, -1);
      return;
    }
    exchange.sendResponseHeaders(status, bytes.length);
    exchange.getResponseBody().write(bytes);
  }

  private static void headers(HttpExchange exchange, String type) {
    Headers headers = exchange.getResponseHeaders();
    headers.set("Content-Type", type + "; charset=utf-8");
    headers.set("Cache-Control", "no-store");
    headers.set("Content-Security-Policy", "frame-ancestors 'none'");
    headers.set("Cross-Origin-Resource-Policy", "same-origin");
    headers.set("Referrer-Policy", "no-referrer");
    headers.set("X-Content-Type-Options", "nosniff");
  }

  private void stream(HttpExchange exchange) throws IOException, InterruptedException {
    String heard = exchange.getRequestHeaders().getFirst("Last-Event-ID");
    boolean known = heard != null && heard.matches("[0-9]{1,18}");
    headers(exchange, "text/event-stream");
    Events.Listener listener = events.join(known ? Long.parseLong(heard) : 0);
    try {
      exchange.sendResponseHeaders(200, 0);
      OutputStream out = exchange.getResponseBody();
      for (Optional<String> next = listener.next(); next.isPresent(); next = listener.next()) {
        out.write(next.get().getBytes(StandardCharsets.UTF_8));
        out.flush();
      }
    } finally {
      events.leave(listener);
    }
  }

  /** The body is the topic and the payload, each in base64, with a blank between. */
  private void publish(HttpExchange exchange) throws IOException {
    byte[] body = exchange.getRequestBody().readNBytes(MOST_BODY + 1);
    if (body.length > MOST_BODY) {
      answer(exchange, 413, "text/plain", "That is too long.\n");
      return;
    }
    Optional<byte[][]> message = message(new String(body, StandardCharsets.ISO_8859_1));
    if (message.isEmpty()) {
      answer(exchange, 400, "text/plain", "That is no topic and payload.\n");
      return;
    }
    Optional<String> trouble = publishing.publish(message.get()[0], message.get()[1]);
    answer(exchange, trouble.isEmpty() ? 200 : 409, "text/plain", trouble.orElse("") + "\n");
  }

  private static Optional<byte[][]> message(String body) {
    String[] parts = body.split(" ", -1);
    if (parts.length != 2) {
      return Optional.empty();
    }
    try {
      Base64.Decoder decoder = Base64.getDecoder();
      return Optional.of(new byte[][] {decoder.decode(parts[0]), decoder.decode(parts[1])});
    } catch (IllegalArgumentException e) {
      return Optional.empty();
    }
  }
}
