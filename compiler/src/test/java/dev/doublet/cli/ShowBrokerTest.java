package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.page.Browser;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.eclipse.paho.client.mqttv3.MqttClient;
import org.eclipse.paho.client.mqttv3.MqttConnectOptions;
import org.eclipse.paho.client.mqttv3.MqttException;
import org.eclipse.paho.client.mqttv3.persist.MemoryPersistence;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A page that is served, and a broker; a second client is the layout. */
@Tag("slow")
class ShowBrokerTest {
  private static final String OPEN = "allow_anonymous true\n";
  private static final int COMMANDS_A_SECOND = 50;

  @TempDir private Path folder;

  @BeforeAll
  static void wantABroker() {
    ScratchBroker.assumeInstalled();
  }

  /** Signals W1, W2 and so on, each with its topic. */
  private void layoutOf(int signals) throws IOException {
    Yard.in(folder);
    StringBuilder layout =
        new StringBuilder(
            """
            layout: Coalpit Yard
            rulebook: book.aspects
            otherwise: most-restrictive
            buses:
              wireless: {speaks: mqtt, topics: yard}
            kinds:
              post: {form: one-head, heads: [searchlight], by: topic, bus: wireless}
            controllers:
              west:
                flash: 65536
                ram: 65536
                chains:
                  main:
                    signals:
            """);
    for (int i = 1; i <= signals; i++) {
      layout.append("        - {name: W").append(i).append(", kind: post}\n");
    }
    Files.writeString(folder.resolve("layout.yaml"), layout);
  }

  /** Another client. */
  private static final class Client implements AutoCloseable {
    private final MqttClient client;
    private final BlockingQueue<String> heard = new LinkedBlockingQueue<>();

    Client(ScratchBroker broker, String name) throws MqttException {
      client = new MqttClient("tcp://" + broker.place(), name, new MemoryPersistence());
      MqttConnectOptions options = new MqttConnectOptions();
      options.setMaxInflight(1000);
      client.connect(options);
    }

    void publish(String topic, String payload, boolean retained) throws MqttException {
      client.publish(topic, payload.getBytes(StandardCharsets.UTF_8), 1, retained);
    }

    void listen(String topics) throws MqttException {
      client.subscribe(
          topics,
          1,
          (topic, message) ->
              heard.add(topic + " " + new String(message.getPayload(), StandardCharsets.UTF_8)));
    }

    @Override
    public void close() throws MqttException {
      client.disconnectForcibly(0, 100);
      client.close(true);
    }
  }

  private static String base64(String text) {
    return Base64.getEncoder().encodeToString(text.getBytes(StandardCharsets.UTF_8));
  }

  private static String command(String kind, String topic, String payload) {
    return kind + " " + base64(topic) + " " + base64(payload);
  }

  private Showing show(ScratchBroker broker, String... more)
      throws InterruptedException, IOException {
    List<String> arguments = new ArrayList<>(List.of("--broker", broker.place()));
    arguments.addAll(List.of(more));
    return Showing.of(folder, arguments.toArray(String[]::new));
  }

  private static Showing.Listening joined(Showing it, String state)
      throws IOException, InterruptedException {
    Showing.Listening page = it.listen();
    while (!page.next("broker").data().startsWith(state + " ")) {
      // It is being joined.
    }
    return page;
  }

  @Test
  void what_arrives_on_topics_of_the_layout_is_told_and_nothing_else() throws Exception {
    layoutOf(2);
    try (ScratchBroker broker = ScratchBroker.of(folder, OPEN);
        Client layout = new Client(broker, "layout")) {
      layout.listen("#");
      layout.publish("yard/W1", "Approach", true);
      try (Showing it = show(broker)) {
        Showing.Listening page = joined(it, "joined");
        assertThat(page.next("command").data())
            .isEqualTo(command("retained", "yard/W1", "Approach"));
        // Nobody's yet: it comes once a signal that was added listens to it.
        layout.publish("yard/W3", "Stop", true);
        layout.publish("elsewhere", "Stop", false);
        layout.publish("yard/W2", "\u0000\u202e</script>\r\n", false);
        layout.publish("yard/W2", "x".repeat(600), false);
        layout.publish("yard/W2", "", false);
        layout.publish("yard/W1", "Clear", false);
        assertThat(page.next("command").data())
            .isEqualTo(command("live", "yard/W2", "\u0000\u202e</script>\r\n"));
        assertThat(page.next("command").data()).isEqualTo("long " + base64("yard/W2"));
        assertThat(page.next("command").data()).isEqualTo("live " + base64("yard/W2"));
        assertThat(page.next("command").data()).isEqualTo(command("live", "yard/W1", "Clear"));

        Showing.Listening later = it.listen();
        assertThat(later.next("command").data()).isEqualTo("earlier " + base64("yard/W2"));
        assertThat(later.next("command").data()).isEqualTo(command("earlier", "yard/W1", "Clear"));
        assertThat(it.publish(base64("yard/W1") + " " + base64("Stop")).body())
            .isEqualTo("Nothing is published: that was not asked for.\n");
        layoutOf(3);
        page.next("layout");
        assertThat(page.next("command").data()).isEqualTo(command("retained", "yard/W3", "Stop"));
        assertThat(it.end()).isZero();
      }
      layout.publish("end", "", false);
      List<String> all = new ArrayList<>();
      for (String one = ""; !one.equals("end "); ) {
        one = layout.heard.poll(10, TimeUnit.SECONDS);
        all.add(one);
      }
      assertThat(all).as("what this client published, and nothing of the page").hasSize(8);
    }
  }

  @Test
  void the_page_publishes_on_topics_of_the_layout_when_asked() throws Exception {
    layoutOf(2);
    try (ScratchBroker broker = ScratchBroker.of(folder, OPEN);
        Client layout = new Client(broker, "layout");
        Showing it = show(broker, "--publish")) {
      layout.listen("#");
      Showing.Listening page = joined(it, "publishes");
      assertThat(it.publish(base64("yard/W1") + " " + base64("Stop")).statusCode()).isEqualTo(200);
      assertThat(layout.heard.poll(10, TimeUnit.SECONDS)).isEqualTo("yard/W1 Stop");
      assertThat(page.next("command").data()).isEqualTo(command("live", "yard/W1", "Stop"));
      for (String topic : List.of("yard/W9", "$SYS/x", "#", "")) {
        assertThat(it.publish(base64(topic) + " " + base64("Stop")).statusCode())
            .as(topic)
            .isEqualTo(409);
      }
      broker.kill();
      assertThat(it.publish(base64("yard/W1") + " " + base64("Stop")).body())
          .startsWith("The broker did not take it: ");
      assertThat(layout.heard).isEmpty();
    }
  }

  @Test
  void a_broker_that_does_not_answer_is_told_once_and_then_that_it_does() throws Exception {
    layoutOf(1);
    try (ScratchBroker broker = ScratchBroker.of(folder, OPEN)) {
      broker.kill();
      try (Showing it = show(broker)) {
        Showing.Listening page = it.listen();
        String words = page.next("broker").data();
        while (words.contains("yet")) {
          words = page.next("broker").data();
        }
        assertThat(words).startsWith("away Broker ").contains("is not joined: ");
        // Six tries later it is told to be joined, and nothing was told in between.
        Thread.sleep(3_000);
        broker.start();
        assertThat(page.next("broker").data()).startsWith("joined ");
      }
    }
  }

  @Test
  void a_broker_that_is_killed_is_joined_again() throws Exception {
    layoutOf(20);
    try (ScratchBroker broker = ScratchBroker.of(folder, OPEN);
        Showing it = show(broker)) {
      Showing.Listening page = joined(it, "joined");
      try (Client layout = new Client(broker, "layout")) {
        layout.publish("yard/W1", "Stop", false);
        assertThat(page.next("command").data()).isEqualTo(command("live", "yard/W1", "Stop"));
        broker.kill();
      }
      assertThat(page.next("broker").data()).startsWith("away ");
      broker.start();
      try (Client layout = new Client(broker, "layout")) {
        // Retained while the page was away, so that it comes to it all the same.
        layout.publish("yard/W20", "Clear", true);
        while (!page.next("broker").data().startsWith("joined ")) {
          // It is being joined.
        }
        layout.publish("yard/W1", "Clear", false);
        List<String> both = List.of(page.next("command").data(), page.next("command").data());
        assertThat(both.get(0)).endsWith(base64("yard/W20") + " " + base64("Clear"));
        assertThat(both.get(1)).isEqualTo(command("live", "yard/W1", "Clear"));
      }
    }
  }

  /**
   * What a layout tells: commands, retained, at their pace. It knows what it told last, and tells
   * that to a broker that has forgotten.
   */
  private static final class Teller {
    private final Random random = new Random(200);
    private final Map<String, String> last = new LinkedHashMap<>();

    /** Each as "topic payload", in order. */
    List<String> tell(Client layout, int commands) throws Exception {
      List<String> told = new ArrayList<>();
      for (Map.Entry<String, String> one : last.entrySet()) {
        layout.publish(one.getKey(), one.getValue(), true);
        told.add(one.getKey() + " " + one.getValue());
      }
      long begun = System.nanoTime();
      for (int i = 0; i < commands; i++) {
        long left = begun + i * 1_000_000_000L / COMMANDS_A_SECOND - System.nanoTime();
        TimeUnit.NANOSECONDS.sleep(Math.max(0, left));
        String topic = "yard/W" + (1 + random.nextInt(200));
        String payload = List.of("Clear", "Approach", "Stop").get(random.nextInt(3));
        layout.publish(topic, payload, true);
        told.add(topic + " " + payload);
        last.put(topic, payload);
      }
      return told;
    }
  }

  /** For the whole minute: {@code -Pbroker}. The broker is killed in its middle. */
  @Test
  void two_hundred_signals_at_fifty_commands_a_second_lose_and_reorder_nothing() throws Exception {
    Browser.assumeInstalled();
    layoutOf(200);
    int half = COMMANDS_A_SECOND * Integer.getInteger("show.seconds", 4) / 2;
    Teller teller = new Teller();
    List<String> told;
    List<String> heard = new ArrayList<>();
    List<String> sinceJoined = new ArrayList<>();
    try (ScratchBroker broker = ScratchBroker.of(folder, OPEN);
        Showing it = show(broker)) {
      Showing.Listening page = joined(it, "joined");
      CompletableFuture<List<String>> browser = browser(it);
      try (Client layout = new Client(broker, "layout")) {
        told = teller.tell(layout, half);
        for (int i = 0; i < half; i++) {
          heard.add(words(page.next("command")));
        }
        broker.kill();
      }
      assertThat(heard).isEqualTo(told);

      broker.start();
      try (Client layout = new Client(broker, "layout")) {
        told = teller.tell(layout, half);
        layout.publish("yard/W200", "the end", true);
        told.add("yard/W200 the end");
        boolean joined = false;
        for (String one = ""; !one.equals("yard/W200 the end"); ) {
          Showing.Event event = page.next();
          if (event.name().equals("command")) {
            one = words(event);
            heard.add(one);
            if (joined && event.data().startsWith("live ")) {
              sinceJoined.add(one);
            }
          }
          joined |= event.data().startsWith("joined ");
        }
      }
      List<String> seen = browser.get(60, TimeUnit.SECONDS);
      assertThat(seen.subList(0, heard.size())).isEqualTo(heard);
      teller.last.put("yard/W200", "Stop");
      assertThat(seen.subList(heard.size(), seen.size()))
          .containsExactlyInAnyOrderElementsOf(
              teller.last.entrySet().stream().map(e -> e.getKey() + " " + e.getValue()).toList());
    }
    // While it was away it heard what was retained: of each topic the last, and none out of turn.
    assertThat(sinceJoined).isNotEmpty().isEqualTo(last(told, sinceJoined.size()));
    List<String> since = last(heard, heard.size() - half);
    for (String topic : teller.last.keySet()) {
      List<String> all = told.stream().filter(one -> one.startsWith(topic + " ")).toList();
      List<String> some = since.stream().filter(one -> one.startsWith(topic + " ")).toList();
      assertThat(all).containsSubsequence(some).endsWith(last(some, 1).get(0));
    }
  }

  private static List<String> last(List<String> all, int count) {
    return all.subList(all.size() - count, all.size());
  }

  /** "topic payload". */
  private static String words(Showing.Event command) {
    return Stream.of(command.data().split(" "))
        .skip(1)
        .map(part -> new String(Base64.getDecoder().decode(part), StandardCharsets.UTF_8))
        .collect(Collectors.joining(" "));
  }

  /**
   * A browser that is on the page: what it heard until the end, and then what each signal shows
   * that was ever told anything.
   */
  private CompletableFuture<List<String>> browser(Showing it) throws InterruptedException {
    Map<String, String> asked =
        Map.of(
            "first",
            """
            const take = arrive;
            globalThis.heard = [];
            arrive = (kind, topic, payload) => {
              heard.push(new TextDecoder().decode(topic) + ' ' + new TextDecoder().decode(payload));
              take(kind, topic, payload);
            };
            """,
            "begun",
            folder.resolve("begun").toString(),
            "until",
            "heard.at(-1) === 'yard/W200 the end'",
            "script",
            """
            const told = new Set(heard.map(one => one.split(' ')[0]));
            heard.concat(signals.map(s => `yard/${s.data.name} ${s.says.textContent}`)
                .filter(one => told.has(one.split(' ')[0]))).join('\\n')
            """);
    CompletableFuture<List<String>> seen =
        CompletableFuture.supplyAsync(
            () -> {
              try {
                return Browser.look("attend", it.address().toString(), asked)
                    .get(0)
                    .asText()
                    .lines()
                    .toList();
              } catch (IOException | InterruptedException e) {
                throw new IllegalStateException(e);
              }
            });
    while (!Files.exists(folder.resolve("begun"))) {
      assertThat(seen.isDone()).isFalse();
      Thread.sleep(20);
    }
    return seen;
  }

  @Test
  void a_user_has_a_password_which_no_page_and_no_printing_holds() throws Exception {
    layoutOf(1);
    Path users = folder.resolve("users");
    Path password = folder.resolve("password");
    Files.writeString(password, "open sesame\n");
    Process made =
        new ProcessBuilder("mosquitto_passwd", "-c", "-b", users.toString(), "guard", "open sesame")
            .inheritIO()
            .start();
    assertThat(made.waitFor()).isZero();
    String settings = "allow_anonymous false\npassword_file " + users + "\n";
    try (ScratchBroker broker = ScratchBroker.of(folder, settings);
        Showing stranger = show(broker);
        Showing it = show(broker, "--user", "guard", "--password-file", "password")) {
      Showing.Listening refused = stranger.listen();
      String words = refused.next("broker").data();
      while (words.contains("yet")) {
        words = refused.next("broker").data();
      }
      assertThat(words).startsWith("away Broker tcp://" + broker.place() + " is not joined: ");
      Showing.Listening page = joined(it, "joined");
      assertThat(it.page() + it.printed() + it.complained() + page).doesNotContain("sesame");
      assertThat(it.complained()).contains("without --tls");
    }
  }

  @Test
  void options_of_a_broker_go_with_one() throws IOException {
    Session session = Yard.in(folder);
    assertThat(session.run("show", "layout.yaml", "--publish")).isEqualTo(2);
    assertThat(session.err()).contains("goes with --broker");
    assertThat(session.run("show", "layout.yaml", "--user", "x")).isEqualTo(2);
    assertThat(session.err()).contains("go with --broker");
    for (String place :
        List.of("a b", "host:", "host:0", "host:70000", "tcp://host", "::1", "a@b")) {
      assertThat(session.run("show", "layout.yaml", "--broker", place)).as(place).isEqualTo(2);
      assertThat(session.err()).contains("--broker takes HOST or HOST:PORT");
    }
    assertThat(session.run("show", "layout.yaml", "--broker", "host", "--ca", "x")).isEqualTo(2);
    assertThat(session.err()).contains("--ca goes with --tls");
    assertThat(
            session.run("show", "layout.yaml", "--broker", "host", "--tls", "--ca", "layout.yaml"))
        .isEqualTo(2);
    assertThat(session.err()).isEqualTo("doublet: layout.yaml: this is no certificate\n");
  }
}
