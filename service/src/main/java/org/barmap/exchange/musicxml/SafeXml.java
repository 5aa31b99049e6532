package org.barmap.exchange.musicxml;

import java.io.ByteArrayInputStream;
import java.io.StringReader;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import javax.xml.stream.util.StreamReaderDelegate;

/**
 * An XML reader for strangers' files: no document types, no entities, no outside, no depths, no
 * masses.
 */
final class SafeXml {
  private static final int MAX_DEPTH = 64;

  /** Bytes of a mark of UTF-8. */
  private static final int MARK = 3;

  /** A score of 32 MB has some 1.5 million elements; empty ones would fill the memory. */
  private static final int MAX_ELEMENTS = 2_000_000;

  private static final Pattern ENCODING =
      Pattern.compile("^[^<]*<\\?xml[^>]*?encoding\\s*=\\s*[\"']([^\"']*)");

  private SafeXml() {}

  /**
   * Returns a reader at the start of the document. A document type is passed over unread; what
   * refers to an entity declared in it fails.
   */
  static XMLStreamReader reader(byte[] xml) throws XMLStreamException {
    if (claimsUtf8(xml) && !isUtf8(xml)) {
      // the JDK's parser finds that too, but it tells the console first
      throw new XMLStreamException("text that is no UTF-8");
    }
    XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
    factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    factory.setProperty(XMLInputFactory.IS_REPLACING_ENTITY_REFERENCES, false);
    factory.setProperty(XMLInputFactory.IS_COALESCING, true);
    factory.setXMLResolver(
        (publicId, systemId, base, namespace) -> {
          throw new XMLStreamException("refers to something outside the file");
        });
    // a mark of UTF-8 is believed, whatever encoding the file claims behind it
    return new Shallow(
        marked(xml)
            ? factory.createXMLStreamReader(
                new StringReader(new String(xml, MARK, xml.length - MARK, StandardCharsets.UTF_8)))
            : factory.createXMLStreamReader(new ByteArrayInputStream(xml)));
  }

  private static boolean marked(byte[] xml) {
    return xml.length >= MARK
        && xml[0] == (byte) 0xEF
        && xml[1] == (byte) 0xBB
        && xml[2] == (byte) 0xBF;
  }

  private static boolean claimsUtf8(byte[] xml) {
    String head = new String(xml, 0, Math.min(xml.length, 200), StandardCharsets.ISO_8859_1);
    boolean wide = head.startsWith("\u00FE\u00FF") || head.startsWith("\u00FF\u00FE");
    Matcher declared = ENCODING.matcher(head);
    return marked(xml)
        || !wide && (!declared.find() || declared.group(1).equalsIgnoreCase("UTF-8"));
  }

  private static boolean isUtf8(byte[] xml) {
    try {
      StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(xml));
      return true;
    } catch (CharacterCodingException e) {
      return false;
    }
  }

  private static final class Shallow extends StreamReaderDelegate {
    private int depth;
    private int elements;

    Shallow(XMLStreamReader reader) {
      super(reader);
    }

    @Override
    public int next() throws XMLStreamException {
      int event = super.next();
      if (event == START_ELEMENT && ++depth > MAX_DEPTH) {
        throw new XMLStreamException("elements are nested more than " + MAX_DEPTH + " deep");
      }
      if (event == START_ELEMENT && ++elements > MAX_ELEMENTS) {
        throw new XMLStreamException("has more than " + MAX_ELEMENTS + " elements");
      }
      if (event == END_ELEMENT) {
        depth--;
      }
      if (event == ENTITY_REFERENCE) {
        throw new XMLStreamException("uses an entity");
      }
      return event;
    }
  }
}
