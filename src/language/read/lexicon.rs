//! The words of the garden and what they can mean.

use std::collections::HashMap;
use std::sync::LazyLock;

/// What a word can mean; most mean one thing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Senses(u64);

impl Senses {
    pub(super) fn has(self, sense: Sense) -> bool {
        self.0 & (1 << sense as u32) != 0
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u32)]
pub(super) enum Sense {
    Rust,
    Clean,
    Leaf,
    Drop,
    Sprayed,
    SprayBase,
    Watered,
    WaterBase,
    Water,
    Dry,
    Moist,
    Wet,
    Rain,
    Gauge,
    Picked,
    Fig,
    Frost,
    Planted,
    Removed,
    Weighed,
    Trace,
    Some,
    Heavy,
    Lower,
    Middle,
    Upper,
    Negation,
    Future,
    Condition,
    Question,
    Other,
    Copper,
    Sulfur,
    Oil,
    Pots,
    Ground,
    All,
    But,
    Article,
    Link,
    Common,
    Unit,
    Time,
    Plant,
    Metal,
}

const WORDS: &[(Sense, &str)] = &[
    (
        Sense::Rust,
        "rust rusty rusted rusting spot spots spotted spotting speck specks specked speckled speckles pustule pustules blotch blotches blotchy orange fleck flecks lesion lesions infected infection disease diseased",
    ),
    (Sense::Clean, "clean spotless unblemished healthy"),
    (Sense::Leaf, "leaf leaves leafs foliage lvs leave canopy"),
    (
        Sense::Drop,
        "drop dropped dropping drops shed shedding sheds lost losing defoliated defoliating defoliation bare naked fell falling fallen gone",
    ),
    (
        Sense::Sprayed,
        "sprayed spraid sprayd dosed treated misted applied dusted coated dusting respray resprayed drenched hit gave",
    ),
    (Sense::SprayBase, "spray spraying sprays treat treating treatment mist apply dose dust"),
    (Sense::Watered, "watered soaked irrigated hosed flooded wated waterd drenched quenched topped"),
    (Sense::WaterBase, "watering soak irrigate irrigating hose"),
    (Sense::Water, "water drink drip dripper sprinkler"),
    (Sense::Dry, "dry parched thirsty wilted wilting wilty droopy drooping drying arid crispy"),
    (Sense::Moist, "moist damp fine"),
    (Sense::Wet, "wet soggy waterlogged saturated sodden swampy soaking drowned sopping"),
    (
        Sense::Rain,
        "rain rained raining rains rainfall shower showers downpour storm drizzle drizzled poured precip precipitation",
    ),
    (Sense::Gauge, "gauge guage gage raingauge"),
    (
        Sense::Picked,
        "picked harvested gathered pulled plucked ate grabbed collected picking harvest pickd picd harvesting pick",
    ),
    (Sense::Fig, "fig figs fruit fruits ripe ones"),
    (Sense::Frost, "frost frosted frosty froze frozen freeze freezing freezes ice iced"),
    (Sense::Planted, "planted repotted potted plant planting"),
    (Sense::Removed, "removed died dead dug binned ditched tossed sold killed"),
    (Sense::Weighed, "weighed weighs weight weigh scale scales"),
    (
        Sense::Trace,
        "few trace little tiny slight slightly beginning bit light lightly barely couple first faint minor hint",
    ),
    (Sense::Some, "some several moderate moderately more spreading noticeable fair"),
    (
        Sense::Heavy,
        "heavy heavily covered everywhere bad badly lots severe severely awful terrible loaded riddled full tons plastered worst",
    ),
    (Sense::Lower, "lower low bottom lowest inside oldest older old"),
    (Sense::Middle, "middle mid centre center"),
    (Sense::Upper, "upper top topmost highest young youngest new tip tips"),
    (
        Sense::Negation,
        "no not none never without didn't didnt haven't havent hasn't hasnt don't dont doesn't doesnt wasn't wasnt isn't isnt nothing zero ain't won't couldn't weren't",
    ),
    (
        Sense::Future,
        "will gonna i'll ill we'll going plan planning plans tomorrow tmrw tmr tomorow should need needs must want wanna might may thinking later soon intend remind todo let's lets gotta i'd hoping supposed consider considering",
    ),
    (Sense::Condition, "if unless whenever in_case assuming provided once until till"),
    (
        Sense::Question,
        "should do does did can could is are when what whats what's how hows how's why which who will would any was were where worth am has have",
    ),
    (
        Sense::Other,
        "neighbor neighbors neighbor's neighbour neighbours neighbour's friend friends friend's sister sister's brother brother's uncle uncle's mom's mother's dad's father's cousin cousin's coworker's nursery store park someone somebody guy guy's they their his her hers he she aunt aunt's grandma's grandpa's boss's in-laws church library school",
    ),
    (Sense::Copper, "copper coper bordeaux cu coppper"),
    (Sense::Sulfur, "sulfur sulphur sulfer sulpher sulfa sulfr"),
    (Sense::Oil, "oil neem horticultural"),
    (Sense::Pots, "pots potted containers container planters planter tubs tub buckets"),
    (Sense::Ground, "ground inground in-ground"),
    (Sense::All, "all everything everyone every each both whole entire everybody"),
    (Sense::But, "except excluding besides minus"),
    (Sense::Article, "the a an my our this that these those them it its it's your"),
    (
        Sense::Link,
        "on off of from for to in at with and by under around onto over into under near about using",
    ),
    (
        Sense::Common,
        "i i've ive we we've ive us me you just already also then now so there here got get had has have did done do been be was were is are am it's thats that's there's heres here's made put some up down out back again finally only still too very really pretty much many lot still maybe probably roughly approximately nearly almost exactly total today's morning's today day days week hour hours tree trees guys please ok okay well oh hey hi hello yes yeah yep no thanks thank cheers lol haha ugh wow damn nice great good looking looks look looked see saw seen found find noticed notice checked check showing shows show starting started start getting gets seems seem feels feel felt like than more less left right half quarter third most mostly few couple single one two bunch pair mornin afternoon evening night noon midnight but or as not any this that those these when while after before during since because cuz bc their came come comes went go goes going took take takes taking given give gives each per side sides underside undersides soil mix dirt stem stems branch branches top topsoil medium full empty reads reading read says said shows showed hot cold warm cool sunny cloudy windy humid weather forecast season year month time times first second last next early late gone away keep kept stuff thing things bit everything's totally completely entirely somewhat rather quite even ever always all-over over class grade level score percent pct of's two's no's lil little big small tall short whole entire area surface yard garden plot patch bed deck patio porch home house",
    ),
    (
        Sense::Time,
        "today yesterday tonight morning afternoon evening night noon midnight midday am pm monday tuesday wednesday thursday friday saturday sunday mon tue tues wed weds thu thur thurs fri sat sun january february march april june july august september october november december jan feb mar apr jun jul aug sep sept oct nov dec ago last hour hours day days week weeks month months minutes min mins yday ystrdy lastnight dawn dusk sunrise sunset o'clock earlier",
    ),
    (
        Sense::Unit,
        "inch inches in mm millimeter millimeters millimetre millimetres cm gallon gallons gal gals litre litres liter liters l lt ml quart quarts qt pint pints cup cups tbsp tablespoon tablespoons tsp teaspoon teaspoons oz ounce ounces lb lbs pound pounds kg kilo kilos gram grams g ft feet foot percent pct dozen f c fahrenheit celsius degrees degree deg",
    ),
    (
        Sense::Plant,
        "rose roses bean beans tomato tomatoes hollyhock hollyhocks pear pears apple apples snapdragon snapdragons lawn grass corn raspberry raspberries blackberry blackberries asparagus garlic peach peaches plum plums geranium geraniums pepper peppers cucumber cucumbers squash citrus lemon blueberry blueberries pecan pomegranate persimmon daylily daylilies mulberry grape grapes",
    ),
    (
        Sense::Metal,
        "pruners pruner secateurs gate fence nail nails truck car bolt bolts tool tools shovel spade barrel drum pipe pipes hinge hinges trellis shears loppers wheelbarrow bumper chain roof mailbox knife grill bucket",
    ),
];

static LEXICON: LazyLock<HashMap<&'static str, Senses>> = LazyLock::new(|| {
    let mut lexicon: HashMap<&'static str, Senses> = HashMap::new();
    for (sense, words) in WORDS {
        for word in words.split_whitespace() {
            lexicon.entry(word).or_default().0 |= 1 << *sense as u32;
        }
    }
    lexicon
});

const NUMBERS: &[(&str, f64)] = &[
    ("zero", 0.0),
    ("one", 1.0),
    ("two", 2.0),
    ("three", 3.0),
    ("four", 4.0),
    ("five", 5.0),
    ("six", 6.0),
    ("seven", 7.0),
    ("eight", 8.0),
    ("nine", 9.0),
    ("ten", 10.0),
    ("eleven", 11.0),
    ("twelve", 12.0),
    ("fifteen", 15.0),
    ("sixteen", 16.0),
    ("eighteen", 18.0),
    ("twenty", 20.0),
    ("thirty", 30.0),
    ("forty", 40.0),
    ("fifty", 50.0),
    ("sixty", 60.0),
    ("seventy", 70.0),
    ("eighty", 80.0),
    ("ninety", 90.0),
    ("hundred", 100.0),
    ("dozen", 12.0),
    ("half", 0.5),
    ("quarter", 0.25),
    ("third", 1.0 / 3.0),
    ("tenth", 0.1),
];

static NUMBER_WORDS: LazyLock<HashMap<&'static str, f64>> =
    LazyLock::new(|| NUMBERS.iter().copied().collect());

pub(super) fn senses(word: &str) -> Senses {
    LEXICON.get(word).copied().unwrap_or_default()
}

pub(super) fn number_word(word: &str) -> Option<f64> {
    NUMBER_WORDS.get(word).copied()
}

/// Whether a word is one of the language's own, and so not a name nobody knows.
pub(super) fn is_known(word: &str) -> bool {
    LEXICON.contains_key(word) || NUMBER_WORDS.contains_key(word)
}
