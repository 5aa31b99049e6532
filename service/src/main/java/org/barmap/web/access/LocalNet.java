package org.barmap.web.access;

import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.NetworkInterface;
import java.net.SocketException;
import java.util.Comparator;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** The addresses of this machine that other machines of the local net reach it at. */
public final class LocalNet {

  /** Bridges to containers and virtual machines: no phone is there. */
  private static final Pattern INSIDE = Pattern.compile("(docker|br-|veth|virbr|vmnet|vboxnet).*");

  private LocalNet() {}

  /**
   * Returns them, the likeliest first: private addresses of version 4 (RFC 1918) only, because a
   * public one would be reached from everywhere.
   */
  public static List<InetAddress> addresses() throws SocketException {
    return NetworkInterface.networkInterfaces()
        .filter(LocalNet::isOutside)
        .flatMap(NetworkInterface::inetAddresses)
        .filter(a -> a instanceof Inet4Address && a.isSiteLocalAddress())
        .sorted(
            Comparator.comparing((InetAddress a) -> !isHome(a))
                .thenComparing(InetAddress::getHostAddress))
        .toList();
  }

  /** Returns whether an address is one of this machine's own. */
  public static boolean isOwn(InetAddress address) throws SocketException {
    return address.isLoopbackAddress() || NetworkInterface.getByInetAddress(address) != null;
  }

  /** Homes and theatres mostly have addresses of this kind. */
  private static boolean isHome(InetAddress address) {
    return address.getHostAddress().startsWith("192.168.");
  }

  private static boolean isOutside(NetworkInterface net) {
    try {
      return net.isUp()
          && !net.isLoopback()
          && !net.isPointToPoint()
          && Stream.of(net.getName()).noneMatch(INSIDE.asMatchPredicate());
    } catch (SocketException e) {
      return false;
    }
  }
}
