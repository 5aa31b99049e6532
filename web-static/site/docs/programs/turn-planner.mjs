// Lists the page turns of a book: how long the player has for each, and what the hands hold then. It knows nothing of
// barmap but its documentation, and needs nothing but Node 18:
//
//   node turn-planner.mjs http://127.0.0.1:7171 KEY BOOK

const [service, key, book] = process.argv.slice(2);
if (!book) {
  console.error("Say: service key book");
  process.exit(2);
}

async function get(address) {
  const answer = await fetch(`${service}/api/books/${book}${address}`, { headers: { Authorization: `Bearer ${key}` } });
  const body = await answer.json();
  if (!answer.ok) throw new Error(`${body.title}: ${body.detail}`);
  return body;
}

/** What is held at a bar of the order of play: the last thing said of it so far. */
function held(number, place) {
  const last = (number.hands ?? []).filter((hand) => hand.from <= place).at(-1) ?? {};
  const words = [last.instrument, last.bow, last.mute, last.extension, last.tuning].filter(Boolean);
  return words.length > 0 ? words.join(", ") : "nothing said";
}

/** How many single bars are played before an entry of the order of play is over. */
function placeAfter(number, bar, pass, counts) {
  let bars = 0;
  for (const entry of number.order) {
    bars += entry.bars ?? counts.get(entry.bar);
    if (entry.bar === bar && entry.pass === pass) return bars;
  }
  return bars;
}

function seconds(turn) {
  // beats and seconds are absent where no meter or tempo is known
  if (turn.gap.seconds !== undefined) return `${turn.gap.seconds.toFixed(1)} s free`;
  return turn.gap.bars === 0 ? "no bar free" : `${turn.gap.bars} bars free`;
}

const VERDICTS = { time: "time enough", quick: "quick", unknown: "not known", none: "no time" };

try {
  const [map, plan] = await Promise.all([get("/map"), get("/plan")]);
  const counts = new Map(map.bars.map((bar) => [bar.id, bar.count]));
  const names = new Map(map.bars.map((bar) => [bar.id, bar.label ?? String(bar.number + bar.count - 1)]));
  console.log(`${map.book.title}, ${map.book.part}: ${plan.turns.length} turns`);
  for (const turn of plan.turns) {
    const number = plan.numbers.find((n) => n.label === turn.number);
    const hands = number ? held(number, placeAfter(number, turn.leaves, turn.pass, counts) - 1) : "nothing said";
    console.log(`page ${turn.fromPage} to ${turn.toPage}, No. ${turn.number} after bar ${names.get(turn.leaves)}: ${seconds(turn)}, ${VERDICTS[turn.verdict] ?? turn.verdict}; hands: ${hands}`);
    const chosen = turn.advice.find((advice) => advice.chosen);
    if (chosen && turn.verdict !== "time") console.log(`  ${chosen.text.split(". ")[0].replace(/\.$/, "")}.`);
  }
} catch (error) {
  console.error(error.message);
  process.exit(1);
}
