package dev.doublet.broker;

import java.io.IOException;
import java.io.InputStream;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.cert.Certificate;
import java.security.cert.CertificateFactory;
import java.util.Optional;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLSocketFactory;
import javax.net.ssl.TrustManagerFactory;
import org.eclipse.paho.client.mqttv3.MqttConnectOptions;

/**
 * Where a broker is, and who asks.
 *
 * @param host a name or an address
 * @param port 1883 as usual, 8883 with TLS (registered with IANA as mqtt and secure-mqtt)
 * @param tls true to speak TLS, with the host's name held against its certificate
 * @param authorities who may sign that certificate; empty for those that Java trusts
 * @param user the user's name; may be empty
 * @param password of the user; may be empty
 */
public record BrokerPlace(
    String host,
    int port,
    boolean tls,
    Optional<SSLSocketFactory> authorities,
    String user,
    String password) {
  /** How long a broker has to answer. */
  public static final int MILLIS_TO_ANSWER = 5_000;

  private static final int SECONDS_ALIVE = 10;

  /** How it is written; holds no password. */
  public String uri() {
    return (tls ? "ssl://" : "tcp://") + host + ":" + port;
  }

  /** Trusts those certificates alone that these have signed, in PEM or DER. */
  public static SSLSocketFactory trust(InputStream certificates)
      throws IOException, GeneralSecurityException {
    KeyStore known = KeyStore.getInstance(KeyStore.getDefaultType());
    known.load(null, null);
    for (Certificate one :
        CertificateFactory.getInstance("X.509").generateCertificates(certificates)) {
      known.setCertificateEntry("trusted " + known.size(), one);
    }
    TrustManagerFactory trust =
        TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
    trust.init(known);
    SSLContext context = SSLContext.getInstance("TLS");
    context.init(null, trust.getTrustManagers(), null);
    return context.getSocketFactory();
  }

  /** Options of a connection to it that starts anew and is soon missed. */
  public MqttConnectOptions options() {
    MqttConnectOptions options = new MqttConnectOptions();
    options.setMqttVersion(MqttConnectOptions.MQTT_VERSION_3_1_1);
    options.setCleanSession(true);
    options.setKeepAliveInterval(SECONDS_ALIVE);
    options.setConnectionTimeout(MILLIS_TO_ANSWER / 1000);
    authorities.ifPresent(options::setSocketFactory);
    if (!user.isEmpty()) {
      options.setUserName(user);
      options.setPassword(password.toCharArray());
    }
    return options;
  }
}
