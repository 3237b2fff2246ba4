//! The words of the trade, by sense. From memory of how growers talk; the spellings of haste among them.

use std::collections::HashMap;
use std::sync::LazyLock;

use super::Sense;

pub(super) const WORDS: &[(Sense, &str)] = &[
    (Sense::Rust, "rust rusty rusted rusting rusts"),
    (
        Sense::Spots,
        "spot spots spotted spotting spotty speck specks specked speckle speckles speckled pustule pustules blotch blotches blotchy fleck flecks flecked dot dots dotted lesion lesions infected infection infections disease diseased orange orangey orangish freckle freckles freckled powder powdery stippled stippling blemish blemishes blemished",
    ),
    (
        Sense::Clean,
        "clean cleanest spotless unblemished healthy pristine immaculate clear flawless unspotted blemishless",
    ),
    (Sense::Leaf, "leaf leaves leafs leave lvs lf foliage canopy leafage"),
    (
        Sense::Drop,
        "drop dropped dropping drops shed shedding sheds lost losing lose loses fell falled falling fallen defoliation droped dropd",
    ),
    (Sense::Bare, "bare naked defoliated defoliating leafless denuded stripped nude bald nekkid"),
    (
        Sense::Sprayed,
        "sprade sprayed coppered copper'd sulfured sulphured sulfur'd sulphur'd neemed neem'd resprayed spraid sprayd spryed spayed sprayd",
    ),
    (Sense::Spray, "spray sprays respray sparay"),
    (Sense::Spraying, "spraying respraying sprayng"),
    (
        Sense::Applied,
        "applied treated dosed misted dusted coated drenched doused reapplied retreated fogged spritzed dusted hit",
    ),
    (
        Sense::Apply,
        "apply treat dose mist dust coat reapply treats doses application applications round coating",
    ),
    (Sense::Applying, "applying treating dosing misting dusting treatment treatments reapplying"),
    (
        Sense::Gave,
        "gave give given put putting did used use using got done went had hit laid threw finished doing ran run gets poured turned",
    ),
    (
        Sense::Watered,
        "watrd waterred waters watered drank irrigated hosed flooded quenched rewatered wated waterd watred wtrd soaked drenched",
    ),
    (Sense::Water, "water watr irrigate soak flood"),
    (Sense::Watering, "watering irrigating hosing irrigation wattering"),
    (
        Sense::Drink,
        "water drink drinks h2o drip dripper drippers dripline sprinkler sprinklers soaker bucket buckets bucketful jug jugs wtr soaking irrigation hose",
    ),
    (
        Sense::Dry,
        "shriveled shrivelled gasping bonedry dry drier driest dried drying parched thirsty wilted wilting wilty wilt droopy drooping drooped droops droop arid crispy crisp dusty limp flagging dehydrated wilts",
    ),
    (Sense::Moist, "moist damp moistish dampish humid"),
    (
        Sense::Wet,
        "squelchy squelching swimming wet soggy waterlogged saturated sodden swampy soaked soaking drowned drowning sopping drenched muddy wettish boggy sloppy",
    ),
    (
        Sense::Rain,
        "rain rained raining rains rainfall shower showers showered downpour downpours storm storms stormed thunderstorm thunderstorms drizzle drizzled sprinkle sprinkled precip precipitation cloudburst deluge rainstorm",
    ),
    (Sense::Rained, "rained poured drizzled showered sprinkled stormed fell"),
    (Sense::Gauge, "pluviograph gauge guage gage raingauge gauges pluviometer gague gaug"),
    (Sense::Picked, "pkd picked harvested plucked gathered pickd picd pikced pciked picket harvestd reaped"),
    (Sense::Harvest, "harvest harvests haul yield pickings tally"),
    (Sense::Pick, "pick picks pluck gather"),
    (Sense::Picking, "picking harvesting plucking gathering pickings"),
    (
        Sense::Took,
        "ate eaten got grabbed pulled collected collect took taken brought snagged gave yielded nabbed scored twisted snatched enjoyed had get came",
    ),
    (Sense::Fig, "fig figs fruit fruits breba brebas figgies crop"),
    (Sense::Ripe, "ripe riper"),
    (Sense::Frost, "frost frosts frosted frosty freeze freezes freezing frozen froze hoarfrost hoar"),
    (Sense::Froze, "froze frosted freezed"),
    (
        Sense::Planted,
        "planted repotted replanted transplanted potted plant transplant repot planting repotting",
    ),
    (
        Sense::Removed,
        "removed died dead dug binned ditched tossed sold killed scrapped chucked discarded culled",
    ),
    (Sense::Weighed, "weighed weighs weight weigh scale scales weighing weights"),
    (
        Sense::Trace,
        "lil few smattering sprinkling speckling odd wee whisper scant trace traces small little tiny slight slightly beginning beginnings bit light lightly barely couple first faint minor hint hints sparse scattered minimal starting started single handful isolated touch smidge smidgen tad dash dab",
    ),
    (Sense::Some, "some several moderate moderately more spreading noticeable fair patchy medium"),
    (
        Sense::Heavy,
        "lotta heaps plenty masses galore ravaged devastated hammered swamped smothering raging lashings oodles buckets heavy heavily covered covering everywhere bad badly lots severe severely awful terrible terribly loaded riddled full tons plastered worst horrible massive massively extensive extensively infested crawling caked smothered peppered most thick rampant overrun ton nasty widespread wrecked destroyed",
    ),
    (Sense::Lower, "lower low lowr bottom btm lowest inside interior inner oldest older below beneath basal"),
    (Sense::Middle, "middle mid centre center midway central"),
    (
        Sense::Upper,
        "upper top topmost uppr highest young youngest newest new newer tip tips upward above outer",
    ),
    (Sense::Whole, "throughout whole entire"),
    (
        Sense::Negation,
        "no not none never nary without didn't didnt haven't havent hasn't hasnt don't dont doesn't doesnt wasn't wasnt isn't isnt nothing zero ain't aint won't wont couldn't couldnt weren't werent aren't arent nor neither hardly nobody nowhere wouldn't wouldnt shouldn't shouldnt mustn't hadn't hadnt can't cant cannot nil nada",
    ),
    (
        Sense::Future,
        "will gonna i'll we'll it'll they'll he'll she'll going tomorrow tmrw tmr tomorow 2moro 2morrow tommorow tomorrow's tmw l8r upcoming forecast forecasted expected predicted predicting expecting supposed shall later soon goin fixin fixing",
    ),
    (
        Sense::Intent,
        "plan planning plans planned need needs should shud shld must want wants wanna gotta may might could thinking intend intending remind reminder todo let's lets i'd we'd hoping hope supposed consider considering ought due time ready about have want would shall prepare preparing prepping decide deciding better try trying intention intentions",
    ),
    (Sense::Perhaps, "maybe perhaps possibly might could may"),
    (Sense::Finished, "complete completed finished done just completed wrapped finally already been being"),
    (
        Sense::Condition,
        "if unless whenever assuming provided once until till suppose supposing lest depending whether",
    ),
    (
        Sense::Habit,
        "usually always normally typically generally often sometimes usual tend tends every everyday regularly rarely seldom occasionally",
    ),
    (
        Sense::Asks,
        "should do does did can could is are when whens when's what whats what's how hows how's why which who will would any was were where am has have wot wats wat shud shld y wen",
    ),
    (
        Sense::Someone,
        "neighbor neighbors neighbor's neighbors' neighbour neighbours neighbour's nbr nbrs friend friends friend's buddy buddy's buddys sister sister's brother brother's uncle uncle's aunt aunt's auntie cousin cousin's coworker coworker's colleague coworkers someone someone's somebody somebody's guy guy's guys grandma grandma's grandmother grandmother's granny grandpa's grandpa grandfather grandfather's boss boss's in-laws his her hers he she lady lady's pal pal's everyone's folks people mom's mother's dad's father's mum's theirs niece nephew gardener gardeners landlord tenant customer customer's customers client patient mama's momma's daddy's granny's memaw's",
    ),
    (
        Sense::Elsewhere,
        "office campus college community allotment video videos podcast documentary nursery store park church library school botanical orchard farm market forum online internet website book article magazine news extension university",
    ),
    (Sense::Mine, "i i've ive i'm im we we've weve my our mine ours me us myself ourselves"),
    (Sense::Copper, "copper coppered copper'd coper bordeaux cu coppper cupric cooper copr hydroxide"),
    (Sense::Sulfur, "sulfur sulfur'd sulphur'd sulfured sulphured sulphur sulfer sulpher sulfa sulfr sulphr"),
    (Sense::Oil, "oil neem neemed neem'd horticultural"),
    (Sense::AnyProduct, "fungicide fungicides product sprayer"),
    (
        Sense::OtherProduct,
        "soap soapy milk vinegar herbicide weedkiller insecticide pesticide peroxide bleach baking soda bicarbonate bicarb fertilizer fertiliser feed seaweed kelp compost tea epsom pyrethrin spinosad mancozeb captan chlorothalonil garlic",
    ),
    (Sense::Fungicide, "captan mancozeb chlorothalonil azoxystrobin myclobutanil propiconazole"),
    (Sense::OtherProduct, "azoxystrobin myclobutanil propiconazole"),
    (Sense::Pots, "pots containers planters tubs potted growbags vases"),
    (Sense::Pot, "pot container planter tub growbag"),
    (Sense::Ground, "ground inground"),
    (
        Sense::All,
        "all everything everythin everythng evrything everyone everybody every each whole entire lot",
    ),
    (Sense::Both, "both"),
    (Sense::But, "except exc bar excepting xcept cept barring excluding besides minus but save"),
    (Sense::Rest, "rest others other remaining remainder"),
    (Sense::Article, "the a an my our this that these those its it's your all both teh"),
    (
        Sense::Link,
        "on off of from for to in at with by under around onto over into near about using w w/ along across through below beneath beside next behind upon among via in's inside between against",
    ),
    (
        Sense::Be,
        "is are was were am be been being 's isn't isnt aren't arent wasn't it's its looks look looking looked seems seem feels feel felt seemed appears they're theyre that's thats there's theres stays staying still remains",
    ),
    (Sense::Have, "has have had got gets get getting having hasn't haven't shows show showing showed"),
    (
        Sense::Unit,
        "hundredths hundredth inch inches inchs in mm millimeter millimeters millimetre millimetres cm gallon gallons gal gals gallonz litre litres liter liters l lt ltr ltrs ml quart quarts qt qts pint pints pt cup cups tbsp tablespoon tablespoons tsp teaspoon teaspoons oz ounce ounces lb lbs pound pounds kg kgs kilo kilos kilogram kilograms gram grams g gr ft feet foot percent pct f c fahrenheit celsius degrees degree deg m metre metres meter meters",
    ),
    (
        Sense::Time,
        "today yesterday yday ystrdy yest tonight morning mornin morn afternoon evening evenin night nite noon midnight midday am pm monday tuesday wednesday thursday friday saturday sunday mon tue tues wed weds thu thur thurs fri sat sun january february march april may june july august september october november december jan feb mar apr jun jul aug sep sept oct nov dec ago last hour hours hr hrs day days week weeks month months year years minute minutes min mins dawn dusk sunrise sunset o'clock earlier overnight weekend weekends lastnight tonite today's yesterday's fortnight noonish daybreak midmorning lunchtime lunch breakfast supper dinner dinnertime 2day 2nite 2night past recently ago since before after during when while",
    ),
    (
        Sense::Plant,
        "chilli chillies chili chilis chile chiles okra brinjal rose roses bean beans tomato tomatoes tomatos hollyhock hollyhocks pear pears apple apples snapdragon snapdragons lawn lawns grass corn raspberry raspberries blackberry blackberries asparagus garlic peach peaches plum plums geranium geraniums pepper peppers cucumber cucumbers squash citrus lemon lemons lime limes blueberry blueberries pecan pecans pomegranate persimmon daylily daylilies mulberry grape grapes basil okra zucchini melon melons strawberry strawberries cherry cherries quince hawthorn juniper junipers pine pines cedar oak oaks mint chives flowers flower herbs veggies vegetables onions onion hydrangea hydrangeas crabapple azalea azaleas camellia camellias banana bananas orange-tree avocado hibiscus dahlias dahlia sunflower sunflowers weeds weed hedge hedges ivy lettuce kale spinach collards potatoes potato carrots carrot jujube pawpaw loquat olive olives almond walnut cactus orchid orchids fern ferns violets zinnias marigolds mum mums pansies bermuda nectarine apricot gooseberry currants currant vine vines cotoneaster wheat bluebells leeks peas peanuts cotton soybeans hive hives beehive honeybees",
    ),
    (
        Sense::Metal,
        "pickup hubcap hubcaps bumper hood door doors bib spigot clippers clipper pruners pruner secateurs gate gates fence nail nails truck car bolt bolts tool tools shovel spade barrel drum pipe pipes hinge hinges trellis shears loppers wheelbarrow bumper chain roof mailbox knife grill screw screws bike bicycle rake hoe cage cages wire wires rebar metal iron steel tin faucet spigot scissors saw blade blades swing chair chairs table shed latch lock key boat trailer tractor mower hammer wrench pump valve fitting fittings stake stakes",
    ),
    (
        Sense::Creature,
        "flea fleas tick ticks deer bird birds squirrel squirrels hawk hawks ant ants beetle beetles wasp wasps bee bees aphid aphids mite mites scale-insects caterpillar caterpillars raccoon raccoons possum cat cats dog dogs snake toad frog rabbit rabbits rat rats mouse mice bug bugs fly flies mosquito mosquitoes spider spiders termite termites roach roaches slug slugs snail snails nematodes whitefly whiteflies hornet hornets kid kids baby grandkids children starlings mockingbird groundhog",
    ),
    (
        Sense::Thing,
        "shirt shoes shoe boots boot pants hands hand face eyes eye hair foot glasses gloves glove hat jacket sleeve arm arms leg legs muscle fight quarrel nose toe toes finger fingers thumb head knee elbow wrist ankle shoulder neck skin lemonade icecream smoothie jam jams preserves pie pies salad bread cookies cake juice wine tea coffee beer freezer fridge jar jars movie song game phone computer keyboard battery paper mail groceries lottery ticket winner team counter countertop windowsill pool porch ladder sprayer nozzle hose-end",
    ),
    (
        Sense::Shop,
        "bucks dollars bought buy buying order ordered ordering store shop price cost costs expensive cheap paid sale sold delivered arrived shipping ship shipped purchase purchased label labels bottle bottles jug bag box brand",
    ),
    (
        Sense::LeafOut,
        "leafed leafing budding budded budbreak leafout sprouting sprouted unfurling unfurled unfolding unfolded emerging emerged leafs-out sprout sprouts buds bud",
    ),
    (
        Sense::Set,
        "figlets figlet fruitlets fruitlet set setting sets forming formed form tiny teeny teensy baby marble marbles marble-sized pea peas pea-sized embryo embryos mini",
    ),
    (
        Sense::Swell,
        "swelling swelled swell swollen swells plumping plumped sizing enlarging fattening puffing ballooning bulging plump filling inflating inflated inflate",
    ),
    (
        Sense::Ripening,
        "soften softens ripening ripen ripened ripens coloring colouring colored coloured softening soft softened sagging nodding hanging ripenin turning colour color",
    ),
    (Sense::Dormant, "dormant asleep dormancy hibernating sleeping"),
    (Sense::Over, "finished done over through picked-out empty spent finito exhausted"),
    (
        Sense::Seen,
        "saw seen look found find finding noticed notice spotted see seeing checked looked inspected scouted scouting observed discovered counted detected examined inspection inspecting examination",
    ),
    (Sense::Tree, "tree trees plant plants bush bushes shrub shrubs figtree figtrees"),
    (
        Sense::Soil,
        "soil soils dirt earth mix potting substrate medium rootball media topsoil compost peat dirt's",
    ),
    (Sense::Pronoun, "it them they its their those these that one ones it's they're theyre same him"),
    (Sense::Thanks, "thanks thank thx ty cheers appreciated tysm thanx thnx thankyou ta tks tnx"),
    (
        Sense::Cold,
        "low lows min minimum temp temps temperature temperatures dipped dropped fell hit down bottomed reached thermometer coldest",
    ),
];

/// Words of the trade a thumb often slips on: slips of one letter are read as these.
pub(super) static OFTEN_MISTYPED: LazyLock<HashMap<char, Vec<&'static str>>> = LazyLock::new(|| {
    const WORDS: &str = "nothing undo quiet brief first meant sorry what night delete remove scratch cancel rust rusty spots spotted specks pustules leaves leaf lower upper middle bottom dropped dropping sprayed spraying spray copper sulfur sulphur applied treated treatment watered watering water gallon gallons litres litre inches inch picked picking harvested harvest gauge rained raining rainfall rain frost freeze froze ripening ripened ripe swelling swollen yesterday tomorrow morning afternoon evening tonight monday tuesday wednesday thursday friday saturday sunday everything everywhere anywhere percent clean covered soggy soaked thirsty wilted wilting drooping dormant repotted planted weighed pounds pound quart quarts forecast weather season neighbor neighbour should because before after except another temperature figs pots container containers ground moisture moist outside inside indoors outdoors moved brought removed product products metric please together forgot";
    let mut by_letter: HashMap<char, Vec<&'static str>> = HashMap::new();
    for word in WORDS.split_whitespace() {
        by_letter.entry(word.chars().next().unwrap_or(' ')).or_default().push(word);
    }
    by_letter
});

pub(super) const NUMBERS: &[(&str, f64)] = &[
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
    ("thirteen", 13.0),
    ("fourteen", 14.0),
    ("fifteen", 15.0),
    ("sixteen", 16.0),
    ("seventeen", 17.0),
    ("eighteen", 18.0),
    ("nineteen", 19.0),
    ("twenty", 20.0),
    ("thirty", 30.0),
    ("forty", 40.0),
    ("fifty", 50.0),
    ("sixty", 60.0),
    ("seventy", 70.0),
    ("eighty", 80.0),
    ("ninety", 90.0),
    ("hundred", 100.0),
    ("thousand", 1e3),
    ("million", 1e6),
    ("billion", 1e9),
    ("dozen", 12.0),
    ("dozens", 12.0),
    ("doz", 12.0),
    ("half", 0.5),
    ("haf", 0.5),
    ("quarter", 0.25),
    ("quarters", 0.25),
    ("qtr", 0.25),
    ("qtrs", 0.25),
    ("third", 1.0 / 3.0),
    ("thirds", 1.0 / 3.0),
    ("fifth", 0.2),
    ("fifths", 0.2),
    ("eighth", 0.125),
    ("eighths", 0.125),
    ("tenth", 0.1),
    ("tenths", 0.1),
];
