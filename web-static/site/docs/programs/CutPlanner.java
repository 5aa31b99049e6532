import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;

/**
 * Puts a cut into a book and prints what is played then. It knows nothing of barmap but its
 * documentation, and needs nothing but Java 17:
 *
 * <pre>java CutPlanner.java http://127.0.0.1:7171 KEY BOOK 6 64 75</pre>
 */
public class CutPlanner {

  private static final HttpClient HTTP = HttpClient.newHttpClient();

  private final String book;
  private final String key;

  private CutPlanner(String service, String key, String book) {
    this.book = service + "/api/books/" + book;
    this.key = key;
  }

  public static void main(String[] args) throws Exception {
    if (args.length != 6) {
      System.err.println("Say: service key book number first last");
      System.exit(2);
    }
    CutPlanner planner = new CutPlanner(args[0], args[1], args[2]);
    System.out.println("Before:");
    planner.print(object(Json.read(planner.get("/plan").body())), args[3]);
    Map<String, Object> step = planner.cut(args[3], args[4], args[5]);
    for (Object check : list(step.get("checks"))) {
      System.out.println("barmap says: " + object(check).get("text"));
    }
    System.out.println("With bars " + args[4] + " to " + args[5] + " cut:");
    planner.print(object(step.get("plan")), args[3]);
  }

  /** Makes the cut on what is there now; when somebody else was first, on what is there then. */
  private Map<String, Object> cut(String number, String first, String last) throws Exception {
    String change =
        "{\"kind\":\"cut\",\"number\":%s,\"first\":%s,\"last\":%s,\"who\":\"cut planner\"}"
            .formatted(Json.quoted(number), Json.quoted(first), Json.quoted(last));
    String once = UUID.randomUUID().toString(); // sent twice, it is made once
    for (int tries = 0; tries < 5; tries++) {
      String revision = get("/changes").headers().firstValue("ETag").orElseThrow();
      HttpResponse<String> made =
          HTTP.send(
              to("/changes")
                  .header("If-Match", revision)
                  .header("Idempotency-Key", once)
                  .header("Content-Type", "application/json")
                  .POST(HttpRequest.BodyPublishers.ofString(change))
                  .build(),
              HttpResponse.BodyHandlers.ofString());
      if (made.statusCode() != 412) {
        return object(Json.read(good(made).body()));
      }
    }
    throw new IllegalStateException("Others change this book all the time");
  }

  /** Prints the order in which a number's bars are played, and how long that is. */
  private void print(Map<String, Object> plan, String label) throws Exception {
    Map<String, Map<String, Object>> bars = new HashMap<>();
    for (Object bar : list(object(Json.read(get("/map").body())).get("bars"))) {
      bars.put((String) object(bar).get("id"), object(bar));
    }
    for (Object one : list(plan.get("numbers"))) {
      Map<String, Object> number = object(one);
      if (!label.equals(number.get("label"))) {
        continue;
      }
      List<String> stretches = new ArrayList<>();
      int from = 0;
      int next = 0;
      for (Object played : list(number.get("order"))) {
        Map<String, Object> entry = object(played);
        Map<String, Object> bar = bars.get((String) entry.get("bar"));
        int first = whole(bar, "number", 0) + whole(entry, "from", 1) - 1;
        if (first != next && next > 0) {
          stretches.add(from + "-" + (next - 1));
          from = first;
        } else if (next == 0) {
          from = first;
        }
        next = first + whole(entry, "bars", whole(bar, "count", 1));
      }
      if (next > 0) {
        stretches.add(from + "-" + (next - 1));
      }
      Map<String, Object> length = object(number.get("played"));
      System.out.println("  No. " + label + ": bars " + String.join(", ", stretches));
      Object seconds = length.get("seconds"); // absent where no tempo is known
      System.out.println(
          "  "
              + whole(length, "bars", 0)
              + " bars"
              + (seconds == null ? "" : ", " + Math.round((Double) seconds) + " s"));
    }
  }

  private HttpRequest.Builder to(String address) {
    return HttpRequest.newBuilder(URI.create(book + address))
        .header("Authorization", "Bearer " + key);
  }

  private HttpResponse<String> get(String address) throws Exception {
    return good(HTTP.send(to(address).build(), HttpResponse.BodyHandlers.ofString()));
  }

  /** Ends with what the service says where it says no. */
  private static HttpResponse<String> good(HttpResponse<String> response) {
    if (response.statusCode() >= 400) {
      Map<String, Object> problem = object(Json.read(response.body()));
      System.err.println(problem.get("title") + ": " + problem.get("detail"));
      System.exit(1);
    }
    return response;
  }

  private static int whole(Map<String, Object> object, String key, int otherwise) {
    return object.get(key) instanceof Double number ? number.intValue() : otherwise;
  }

  @SuppressWarnings("unchecked")
  private static Map<String, Object> object(Object json) {
    return (Map<String, Object>) json;
  }

  @SuppressWarnings("unchecked")
  private static List<Object> list(Object json) {
    return json == null ? List.of() : (List<Object>) json;
  }

  /** As much of JSON as is needed; with a library for it this class goes. */
  private static final class Json {
    private static final String ESCAPED = "bfnrt";
    private static final String MEANT = "\b\f\n\r\t";

    private final String text;
    private int at;

    private Json(String text) {
      this.text = text;
    }

    static Object read(String text) {
      return new Json(text).value();
    }

    static String quoted(String text) {
      return '"' + text.replace("\\", "\\\\").replace("\"", "\\\"") + '"';
    }

    private Object value() {
      switch (peek()) {
        case '{':
          Map<String, Object> object = new LinkedHashMap<>();
          at++;
          while (peek() != '}') {
            String key = string();
            at = text.indexOf(':', at) + 1;
            object.put(key, value());
            at += peek() == ',' ? 1 : 0;
          }
          at++;
          return object;
        case '[':
          List<Object> list = new ArrayList<>();
          at++;
          while (peek() != ']') {
            list.add(value());
            at += peek() == ',' ? 1 : 0;
          }
          at++;
          return list;
        case '"':
          return string();
        default:
          int start = at;
          while (at < text.length() && ",]} \n".indexOf(text.charAt(at)) < 0) {
            at++;
          }
          String word = text.substring(start, at);
          return switch (word) {
            case "true" -> Boolean.TRUE;
            case "false" -> Boolean.FALSE;
            case "null" -> null;
            default -> Double.valueOf(word);
          };
      }
    }

    private char peek() {
      while (Character.isWhitespace(text.charAt(at))) {
        at++;
      }
      return text.charAt(at);
    }

    private String string() {
      peek();
      StringBuilder said = new StringBuilder();
      for (at++; text.charAt(at) != '"'; at++) {
        char c = text.charAt(at);
        if (c == '\\') {
          c = text.charAt(++at);
          if (c == 'u') {
            c = (char) Integer.parseInt(text.substring(at + 1, at + 5), 16);
            at += 4;
          } else if (ESCAPED.indexOf(c) >= 0) {
            c = MEANT.charAt(ESCAPED.indexOf(c));
          }
        }
        said.append(c);
      }
      at++;
      return said.toString();
    }
  }
}
