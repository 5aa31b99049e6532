package org.barmap.work.hook;

import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.InterfaceAddress;
import java.net.NetworkInterface;
import java.net.SocketException;
import java.net.UnknownHostException;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * Which addresses may be sent to: those of the internet, by the registries of special-purpose
 * addresses (IANA, after RFC 6890, as of 2025).
 *
 * @param ownNet whether this machine and its net may be sent to as well
 */
public record NetRules(boolean ownNet) {

  /** The internet only. */
  public static final NetRules INTERNET = new NetRules(false);

  /** What a block of addresses is for. */
  private enum Use {
    /** One's own machine or net. */
    OWN,
    /** Nothing that is ever sent to. */
    NEVER
  }

  private static final List<Block> BLOCKS =
      List.of(
          new Block("0.0.0.0", 8, Use.NEVER),
          new Block("10.0.0.0", 8, Use.OWN),
          new Block("100.64.0.0", 10, Use.OWN),
          new Block("127.0.0.0", 8, Use.OWN),
          new Block("169.254.0.0", 16, Use.NEVER),
          new Block("172.16.0.0", 12, Use.OWN),
          new Block("192.0.0.0", 24, Use.NEVER),
          new Block("192.0.2.0", 24, Use.NEVER),
          new Block("192.88.99.0", 24, Use.NEVER),
          new Block("192.168.0.0", 16, Use.OWN),
          new Block("198.18.0.0", 15, Use.NEVER),
          new Block("198.51.100.0", 24, Use.NEVER),
          new Block("203.0.113.0", 24, Use.NEVER),
          new Block("224.0.0.0", 4, Use.NEVER),
          new Block("240.0.0.0", 4, Use.NEVER),
          new Block("::1", 128, Use.OWN),
          new Block("fc00::", 7, Use.OWN),
          new Block("2001::", 23, Use.NEVER),
          new Block("2001:db8::", 32, Use.NEVER),
          new Block("3fff::", 20, Use.NEVER));

  /** The part of version 6 that is given out; all outside it is special. */
  private static final Block GIVEN_OUT = new Block("2000::", 3, Use.NEVER);

  /** Where an address of version 4 stands inside one of version 6, and from which byte on. */
  private static final List<Inside> INSIDE =
      List.of(
          new Inside(new Block(mapped(), 96, Use.NEVER), 12),
          new Inside(new Block("64:ff9b::", 96, Use.NEVER), 12),
          new Inside(new Block("2002::", 16, Use.NEVER), 2));

  private record Inside(Block block, int at) {}

  /** As text Java takes it for the address of version 4 that is in it. */
  private static byte[] mapped() {
    byte[] first = new byte[16];
    first[10] = (byte) 0xff;
    first[11] = (byte) 0xff;
    return first;
  }

  /** Addresses that begin with the same bits. */
  private record Block(byte[] prefix, int bits, Use use) {

    Block(String first, int bits, Use use) {
      this(bytes(first), bits, use);
    }

    private static byte[] bytes(String literal) {
      try {
        return InetAddress.getByName(literal).getAddress();
      } catch (UnknownHostException e) {
        throw new IllegalArgumentException(e);
      }
    }

    boolean has(byte[] address) {
      if (address.length != prefix.length) {
        return false;
      }
      for (int bit = 0; bit < bits; bit++) {
        int mask = 0x80 >> bit % Byte.SIZE;
        if ((address[bit / Byte.SIZE] & mask) != (prefix[bit / Byte.SIZE] & mask)) {
          return false;
        }
      }
      return true;
    }
  }

  /** Returns why nothing is sent to an address, for a person; empty when it may be. */
  public Optional<String> refusal(InetAddress address) {
    Optional<Use> use = use(address.getAddress());
    if (use.isEmpty() && isNear(address)) {
      use = Optional.of(Use.OWN);
    }
    // which address it is, is nobody's to learn: a name may be known on this net only
    return use.filter(u -> u == Use.NEVER || !ownNet)
        .map(
            u ->
                u == Use.OWN
                    ? "It leads to this machine or its net; that is allowed with barmap serve"
                        + " --hooks-to-my-net only"
                    : "It leads to an address that nothing is sent to");
  }

  /** Tells whether an address is one of this machine's or its net's. */
  boolean isOwn(InetAddress address) {
    return use(address.getAddress()).filter(u -> u == Use.OWN).isPresent() || isNear(address);
  }

  private static Optional<Use> use(byte[] address) {
    for (Inside inside : INSIDE) {
      if (inside.block.has(address)) {
        return use(Arrays.copyOfRange(address, inside.at, inside.at + 4));
      }
    }
    Optional<Use> use = BLOCKS.stream().filter(b -> b.has(address)).map(Block::use).findFirst();
    return use.isEmpty() && address.length > 4 && !GIVEN_OUT.has(address)
        ? Optional.of(Use.NEVER)
        : use;
  }

  /** Nets with public addresses are one's own as well where this machine is in them. */
  private static boolean isNear(InetAddress address) {
    try {
      return NetworkInterface.networkInterfaces()
          .flatMap(net -> net.getInterfaceAddresses().stream())
          .anyMatch(own -> isBeside(own, address));
    } catch (SocketException e) {
      return true;
    }
  }

  private static boolean isBeside(InterfaceAddress own, InetAddress address) {
    boolean same = own.getAddress() instanceof Inet4Address == address instanceof Inet4Address;
    int bits = own.getNetworkPrefixLength();
    return own.getAddress().equals(address)
        || same
            && bits > 0
            && new Block(own.getAddress().getAddress(), bits, Use.OWN).has(address.getAddress());
  }
}
