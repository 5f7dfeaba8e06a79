package dev.doublet.broker;

import java.security.SecureRandom;
import java.util.HexFormat;
import org.eclipse.paho.client.mqttv3.MqttAsyncClient;
import org.eclipse.paho.client.mqttv3.MqttException;
import org.eclipse.paho.client.mqttv3.persist.MemoryPersistence;

/** Clients of a broker: their beginning, their end, and their troubles in words. */
public final class BrokerClient {
  private static final int MILLIS_TO_END = 500;

  private BrokerClient() {}

  /** A client that is not connected yet, under a name that no other has. */
  public static MqttAsyncClient of(BrokerPlace place) throws MqttException {
    byte[] chance = new byte[8];
    new SecureRandom().nextBytes(chance);
    String name = "doublet" + HexFormat.of().formatHex(chance);
    return new MqttAsyncClient(place.uri(), name, new MemoryPersistence());
  }

  /** Ends a client, whatever it is at; it calls back no more. */
  public static void end(MqttAsyncClient client) {
    try {
      client.setCallback(null);
      if (client.isConnected()) {
        client.disconnectForcibly(0, MILLIS_TO_END);
      }
      client.close(true);
    } catch (MqttException e) {
      // It is gone either way.
    }
  }

  /** What went wrong, in a line without a full stop. */
  public static String words(MqttException trouble) {
    Throwable cause = trouble.getCause() == null ? trouble : trouble.getCause();
    String words = cause.getMessage();
    return (words == null ? cause.getClass().getSimpleName() : words).replaceAll("\\s+", " ");
  }
}
