package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Random;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
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

  /** For the whole minute: {@code -Pbroker}. */
  @Test
  void two_hundred_signals_at_fifty_commands_a_second_lose_and_reorder_nothing() throws Exception {
    layoutOf(200);
    int commands = COMMANDS_A_SECOND * Integer.getInteger("show.seconds", 4);
    Random random = new Random(200);
    List<String> names = List.of("Clear", "Approach", "Stop");
    try (ScratchBroker broker = ScratchBroker.of(folder, OPEN);
        Client layout = new Client(broker, "layout");
        Showing it = show(broker)) {
      Showing.Listening page = joined(it, "joined");
      List<String> sent = new ArrayList<>();
      long begun = System.nanoTime();
      for (int i = 0; i < commands; i++) {
        long left = begun + i * 1_000_000_000L / COMMANDS_A_SECOND - System.nanoTime();
        TimeUnit.NANOSECONDS.sleep(Math.max(0, left));
        String topic = "yard/W" + (1 + random.nextInt(200));
        String payload = names.get(random.nextInt(3));
        layout.publish(topic, payload, false);
        sent.add(command("live", topic, payload));
      }
      List<String> heard = new ArrayList<>();
      for (int i = 0; i < commands; i++) {
        heard.add(page.next("command").data());
      }
      assertThat(heard).isEqualTo(sent);
    }
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
