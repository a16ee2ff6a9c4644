package formula

import "sync"

// word is what a word or phrase in an ingredient's name tells.
type word struct {
	allergens []Allergen
	// unsure: a mixture or a whole class, which may hold more than is told.
	unsure bool
	// filler: says nothing by itself ("white", "fine"); a name of nothing but
	// filler is unknown.
	filler bool
}

// phrases maps folded words, parted by single spaces, to what they tell. The longest phrase that fits wins, so that "peanut butter" is
// not milk and "rice flour" not wheat. A phrase with nothing in it is known to
// be harmless in the sense of the two lists.
var phrases = sync.OnceValue(makePhrases)

func makePhrases() map[string]word {
	m := make(map[string]word)
	tell := func(a []Allergen, names ...string) {
		for _, n := range names {
			m[foldPhrase(n)] = word{allergens: a}
		}
	}
	for _, g := range found {
		tell(g.tells, g.names...)
	}
	tell(nil, harmless...)
	for _, n := range mixtures {
		m[foldPhrase(n)] = word{unsure: true}
	}
	for _, p := range perhaps {
		for _, n := range p.names {
			m[foldPhrase(n)] = word{allergens: p.tells, unsure: true}
		}
	}
	for _, fruit := range fruits {
		m[foldPhrase("dried "+fruit)] = word{allergens: []Allergen{Sulphites}, unsure: true}
	}
	for _, n := range someNuts {
		m[foldPhrase(n)] = word{allergens: []Allergen{SomeNut}, unsure: true}
	}
	for _, n := range fillers {
		m[foldPhrase(n)] = word{filler: true}
	}
	for plant, tells := range plants {
		for _, dairy := range []string{"milk", "butter", "yoghurt", "yogurt", "drink"} {
			if name := foldPhrase(plant + " " + dairy); !m[name].unsure {
				m[name] = word{allergens: tells}
			}
		}
	}
	for _, plant := range []string{"soy", "soya", "oat", "rice"} {
		m[foldPhrase(plant+" cream")] = word{allergens: plants[plant]}
	}
	return m
}

// found are the names that tell of allergens.
var found = []struct {
	tells []Allergen
	names []string
}{
	{[]Allergen{Wheat}, []string{
		"wheat", "spelt", "dinkel", "khorasan", "kamut", "emmer", "einkorn", "durum", "farro", "semolina", "bulgur", "bulgar",
		"couscous", "freekeh", "atta", "maida", "manitoba", "gluten", "vital gluten", "graham", "graham flour", "semola",
		"all purpose flour", "bread flour", "plain flour", "strong flour", "white flour", "cake flour", "pastry flour",
		"self raising flour", "self rising flour", "patent flour",
		"tipo 00", "tipo 0", "tipo 1", "tipo 2", "wheatgerm", "wheatmeal", "malted wheat", "polish wheat", "filo", "noodle", "pasta", "spaghetti", "macaroni", "vermicelli", "tagliatelle", "fusilli", "penne", "linguine", "ramen", "duram", "fu", "wheat starch", "wheat germ oil", "kibbled wheat", "ptitim", "pearl couscous", "durum wheat",
		"weizen", "weizenmehl", "weizenvollkornmehl", "weizenkleie", "dinkelmehl", "dinkelvollkornmehl", "hartweizen", "hartweizengriess",
		"emmermehl", "einkornmehl", "grünkern", "ble", "blé", "froment", "epeautre", "épeautre", "petit épeautre", "grano", "frumento", "grano duro", "trigo", "espelta",
	}},
	{[]Allergen{Wheat, Barley}, []string{"malted flour", "granary", "granary flour"}},
	{[]Allergen{Wheat, Barley, Milk}, []string{"malted milk", "malted milk powder"}},
	{[]Allergen{Rye}, []string{"rye", "pumpernickel", "roggen", "roggenmehl", "roggenvollkornmehl", "roggenschrot", "seigle", "segale", "centeno"}},
	{[]Allergen{Wheat, Rye}, []string{"triticale"}},
	{[]Allergen{Barley}, []string{
		"barley", "malt", "malt extract", "malt flour", "malt syrup", "diastatic malt", "bere", "beremeal",
		"gerste", "gerstenmehl", "gerstenmalz", "malz", "bier", "orge", "bière", "birra", "brewer s yeast", "brewers yeast", "yeast extract", "bierhefe", "pearl barley", "pot barley", "barley malt", "barley flour", "barley flake", "graupe", "perlgraupen", "malzextrakt", "malzbier",
	}},
	{[]Allergen{Oats}, []string{"oat", "oatmeal", "oatbran", "porridge", "pinhead oat", "oat bran", "oat fibre", "oat fiber", "hafer", "haferflocken", "hafermilch", "avoine", "avena"}},
	{[]Allergen{Milk}, []string{
		"milk", "butter", "buttermilk", "cream", "creme", "crème fraiche", "crème fraîche", "creme fraiche", "cheese", "cheddar", "parmesan", "feta", "mozzarella", "ricotta", "gouda", "emmental", "paneer", "halloumi", "brie", "camembert", "roquefort", "stilton", "burrata", "provolone", "asiago", "manchego", "parmigiano", "parmigiano reggiano", "grana padano", "raclette", "tilsit", "edam", "fontina", "comté", "queso", "labneh", "ayran", "lassi", "schmand", "clotted cream", "sour cream", "half and half", "lactalbumin", "lactoglobulin", "milk powder", "condensed milk", "evaporated milk", "buttercream", "butterfat", "butter oil", "milk fat", "rennet casein",
		"gruyere", "gruyère", "mascarpone", "pecorino", "yoghurt", "yogurt", "yoghourt", "kefir", "whey", "casein", "caseinate", "ghee", "lactose",
		"skyr", "quark", "curd", "dulce de leche", "milch", "vollmilch", "milchpulver", "buttermilch", "sahne", "käse", "molke", "joghurt", "lait", "beurre", "fromage", "latte", "burro", "formaggio", "leche", "mantequilla",
	}},
	{[]Allergen{Egg}, []string{"egg", "eggwash", "albumen", "albumin", "ovalbumin", "ovomucoid", "lysozyme", "globulin", "vitellin", "egg yolk", "egg white", "dried egg", "meringue", "ei", "eier", "eigelb", "oeuf", "œuf", "uovo", "uova", "huevo"}},
	{[]Allergen{Fish}, []string{"fish", "anchovy", "anchovies", "tuna", "salmon", "cod", "haddock", "herring", "sardine", "mackerel", "bonito", "bottarga", "fish sauce", "trout", "bass", "flounder", "plaice", "sole", "halibut", "pollock", "pollack", "hake", "eel", "sprat", "kipper", "whitebait", "carp", "pike", "perch", "tilapia", "catfish", "swordfish", "monkfish", "turbot", "snapper", "grouper", "sturgeon", "caviar", "roe", "lox", "fish oil", "fish gelatine", "fish gelatin", "nam pla", "nuoc mam", "katsuobushi", "fisch", "sardelle", "lachs", "thunfisch"}},
	{[]Allergen{Crustaceans}, []string{"crustacean", "shrimp", "prawn", "crab", "lobster", "crayfish", "langoustine", "krill", "scampi", "crawfish", "langouste", "barnacle", "garnele", "krabbe"}},
	{[]Allergen{Molluscs}, []string{"mollusc", "mollusk", "mussel", "oyster", "clam", "squid", "octopus", "cuttlefish", "squid ink", "scallop", "snail", "whelk", "abalone", "calamari", "cockle", "winkle", "periwinkle", "escargot", "conch", "limpet", "sepia", "sepia ink", "cuttlefish ink", "geoduck", "muschel", "tintenfisch"}},
	{[]Allergen{Peanut}, []string{"peanut", "groundnut", "ground nut", "monkey nut", "peanut butter", "peanut oil", "peanut flour", "arachis", "arachis oil", "goober", "erdnuss", "erdnüsse", "erdnussbutter", "cacahuète", "arachide"}},
	{[]Allergen{Soya}, []string{
		"soy", "soya", "soja", "soybean", "soyabean", "soy bean", "soya bean", "soy milk", "soya milk", "tofu", "tempeh", "edamame", "soy flour", "soya flour", "soy lecithin", "soya lecithin",
		"okara", "natto", "kinako", "yuba", "bean curd", "soybean oil", "soya protein", "soy protein", "sojamilch", "latte di soia", "soia",
	}},
	{[]Allergen{Soya, Wheat}, []string{"soy sauce", "soya sauce", "shoyu"}},
	{[]Allergen{Sesame}, []string{"sesame", "tahini", "tahina", "tahin", "sesam", "sésame", "sesamo", "benne", "benniseed", "gomasio", "gomashio", "gingelly", "til", "simsim", "sim sim", "sesame oil", "sesame seed", "baba ghanoush"}},
	{[]Allergen{Almond}, []string{"almond", "almond milk", "almond butter", "almond flour", "almond meal", "almond oil", "mandel", "mandelmilch", "amande", "lait d amande", "mandorla", "latte di mandorla"}},
	{[]Allergen{Hazelnut}, []string{"hazelnut", "hazel nut", "filbert", "cobnut", "cob nut", "hazelnut butter", "hazelnut milk", "haselnuss", "haselnüsse", "noisette", "nocciola"}},
	{[]Allergen{Walnut}, []string{"walnut", "black walnut", "english walnut", "persian walnut", "heartnut", "japanese walnut", "walnut oil", "walnuss", "walnüsse", "noix", "noce"}},
	{[]Allergen{Cashew}, []string{"cashew", "cashew nut", "cashew butter", "cashew milk"}},
	{[]Allergen{Pecan}, []string{"pecan", "pecan nut"}},
	{[]Allergen{BrazilNut}, []string{"brazil nut", "brazil", "para nut", "paranuss"}},
	{[]Allergen{Pistachio}, []string{"pistachio", "pistachio nut", "pistachio butter", "pistazie", "pistache", "pistacchio"}},
	{[]Allergen{Macadamia}, []string{"macadamia", "macadamia nut", "queensland nut", "bush nut"}},
	{[]Allergen{PineNut}, []string{"pine nut", "pinenut", "pine kernel", "pinenkern", "pinienkern", "pignoli", "pignolia", "pinon", "piñon", "pinyon", "indian nut"}},
	{[]Allergen{Celery}, []string{"celery", "celeriac", "celery salt", "celery seed", "celery root", "celery leaf", "sellerie", "knollensellerie", "céleri", "sedano"}},
	{[]Allergen{Mustard}, []string{"mustard", "dijon", "mustard seed", "mustard flour", "mustard oil", "mustard leaf", "senf", "senfkorn", "senfsaat", "moutarde", "senape"}},
	{[]Allergen{Sulphites}, []string{"sulphite", "sulfite", "sulphur dioxide", "sulfur dioxide", "metabisulphite", "metabisulfite", "bisulphite", "bisulfite", "e220", "e221", "e222", "e223", "e224", "e225", "e226", "e227", "e228"}},
	{[]Allergen{Lupin}, []string{"lupin", "lupine", "lupin flour", "lupine flour", "lupin seed", "lupin bean", "lupini", "lupini bean", "lupinenmehl", "süsslupine", "altramuz", "tremoco"}},
}

// harmless are names known to tell of nothing on either list. Those that look
// like an allergen and are none stand first.
var harmless = []string{
	"buckwheat", "buck wheat", "buckwheat flour", "nutmeg", "eggplant", "egg plant", "coconut", "coconut butter", "coconut oil", "coconut flour", "coconut water",
	"rice milk", "rice flour", "rice semolina", "corn semolina", "maize semolina", "potato flour", "chickpea flour", "cocoa butter", "shea butter", "apple butter", "butter bean", "butterbean", "butternut squash",
	"cream of tartar", "chestnut", "chestnut flour", "water chestnut", "tiger nut", "tigernut", "tigernut flour", "hemp milk", "milk thistle", "oyster mushroom", "fish mint",
	"buchweizen", "buchweizenmehl", "sarrasin", "grano saraceno", "muskatnuss", "kokosnuss", "noce moscata", "noix de coco", "noix de muscade", "beurre de cacao", "latte di riso", "reismilch",
	"water", "salt", "sea salt", "sugar", "honey", "maple syrup", "golden syrup", "agave", "orange", "lemon", "lime",
	"olive", "tomato", "onion", "garlic", "leek", "carrot", "beetroot", "beet", "pumpkin", "pumpkin seed", "squash", "potato", "sweet potato", "courgette", "spinach", "chilli", "chili", "pepper", "paprika",
	"rosemary", "thyme", "oregano", "basil", "sage", "dill", "lemon zest", "orange zest", "parsley", "chive", "mint", "caraway", "fennel", "anise", "aniseed", "coriander", "cumin", "cardamom", "cinnamon", "clove", "ginger", "turmeric", "saffron", "nigella", "vanilla",
	"rice", "corn", "cornmeal", "cornflour", "cornstarch", "maize", "polenta", "masa", "millet", "sorghum", "teff", "amaranth", "quinoa", "fonio", "tapioca", "cassava", "manioc", "arrowroot", "potato starch", "chickpea", "lentil", "pea", "bean", "carob",
	"sunflower", "sunflower seed", "flax", "flaxseed", "linseed", "poppy", "poppy seed", "chia", "hemp", "psyllium", "acorn",
	"olive oil", "rapeseed", "canola", "lard", "dripping", "yeast", "baking soda", "bicarbonate", "cocoa", "coffee", "espresso", "tea", "ascorbic acid", "vitamin c",
	"reis", "reismehl", "mais", "maismehl", "hirse", "salz", "wasser", "hefe", "zucker", "honig", "leinsamen", "sonnenblumenkern", "kürbiskern", "riz", "sel", "eau", "levure", "miel", "sale", "acqua", "riso",
}

// mixtures may hold anything; what else the name tells is told, but not for sure.
var mixtures = []string{
	"mix", "mixture", "blend", "multigrain", "multiseed", "seed mix", "mixed seed", "mixed grain",
	"improver", "starch", "spread", "filling", "glaze", "topping", "hydrolysed protein", "protein",
	"vegan butter", "vegan cheese", "vegan milk", "vegan cream", "plant milk", "plant butter", "plant cream", "dairy free milk", "doughnut", "donut", "biscuit", "cookie", "cake", "ham", "bacon", "butternut", "nutritional yeast",
	"bread spice", "brotgewürz", "mischung", "mélange",
}

// fillers say nothing by themselves.
var fillers = []string{
	"flour", "mehl", "farine", "farina", "harina", "meal", "white", "strong", "extra", "very", "plain", "brown", "light", "medium", "dark", "fine", "coarse", "whole", "wholemeal", "wholegrain", "grain", "organic", "bio", "stoneground", "stone", "ground",
	"type", "typ", "tipo", "high", "low", "extraction", "unbleached", "bleached", "enriched", "sifted", "bolted", "fresh", "freshly", "milled", "roasted", "toasted", "soaked", "cracked", "rolled", "flaked", "flake", "chopped", "sliced", "dried",
	"sprouted", "malted", "warm", "cold", "hot", "tap", "filtered", "the", "a", "of", "from", "my", "our", "local", "seed", "kernel", "berry", "germ", "bran", "powder", "for", "dusting", "purpose", "all", "pinch", "some", "new", "old", "wild", "raw", "unsalted", "salted", "skimmed", "semi",
	"culture", "starter", "levain", "sourdough", "leaven", "poolish", "biga", "sponge", "soaker", "scald",
	"di", "de", "du", "la", "le", "e", "vollkorn",
}

// perhaps are names that tell of an allergen which not every such thing holds, or which
// holds more than that: what is prepared or put together is never known by its name.
//
// Sulphites keep the colour of dried, candied and glacé fruit, of dried potato and
// of some molasses, of bottled juice, of coconut milk in tins, often above the 10 mg/kg
// from which EU 1169/2011, Annex II, wants them named; a name does not say whether a fruit
// was dried (which foods: common practice, no source). Packet suet is dusted with flour,
// usually of wheat or rice, asafoetida is cut with flour, and fried onions are floured
// (common practice, no source). Wine and cider are fined with egg, milk or fish, beer is
// brewed of wheat as well, bread and crumbs are of whatever bread they were, tamari may be
// brewed with wheat, and halva has nuts in it (common practice, no source). Orzo is barley in Italian, pasta of wheat in English.
var perhaps = []struct {
	tells []Allergen
	names []string
}{
	{[]Allergen{Sulphites}, []string{
		"golden raisin", "apricot dried", "glacé cherry", "glace cherry", "candied cherry", "cocktail cherry", "maraschino cherry",
		"candied peel", "mixed peel", "candied fruit", "glacé fruit", "glace fruit", "crystallised ginger", "crystallized ginger", "candied ginger", "orangeat", "zitronat",
		"wine", "cider", "perry", "mead", "sherry", "port", "vermouth", "marsala", "prosecco", "champagne", "wein", "sekt", "vin", "vino",
		"dried potato", "potato flake", "instant potato", "dried fruit", "dried vegetable", "dried mushroom", "lemon juice", "lime juice", "grape juice", "horseradish",
		"wine vinegar", "balsamic", "balsamic vinegar", "cider vinegar", "apple cider vinegar", "gherkin", "pickle", "pickled onion", "sauerkraut", "guacamole", "fruit filling", "trockenfrüchte", "dörrobst",
	}},
	{nil, []string{
		"date", "fig", "raisin", "sultana", "currant", "cranberry", "cherry", "prune", "apricot", "apple", "pear", "peach", "mango", "papaya", "pineapple", "banana",
		"rosine", "rosinen", "sultanine", "sultaninen", "aprikose", "aprikosen", "marille", "marillen", "feige", "feigen", "dattel", "datteln", "raisin sec", "abricot", "uvetta", "albicocca",
		"orange peel", "lemon peel", "stem ginger", "sundried tomato", "sun dried tomato", "dried tomato", "desiccated coconut", "molasses", "treacle", "melasse",
		"coconut milk", "coconut cream", "kokosmilch", "lait de coco", "latte di cocco", "rice noodle", "syrup", "oil", "vinegar", "essig", "vinaigre", "aceto", "öl", "huile", "olio",
		"baking powder", "backpulver", "modified starch", "dextrin", "maltodextrin", "dextrose", "glucose syrup", "cereal", "soup", "sauce", "marshmallow", "jelly", "jam", "sprinkle", "icing", "fondant", "flavouring", "flavoring", "aroma",
		"mashed potato", "potato purée", "potato puree", "kartoffelpüree", "kartoffelbrei", "egg replacer", "egg substitute",
		"veggie burger", "burger", "meatball", "pâté", "pate", "salami", "crisp", "chip", "snack", "trail mix", "energy bar", "protein powder", "dough conditioner", "flour improver", "tomato paste", "ketchup", "tapenade", "relish", "chutney", "salsa", "persipan",
	}},
	{[]Allergen{Wheat}, []string{
		"suet", "vegetable suet", "beef suet", "packet suet", "asafoetida", "hing", "fried onion", "crispy onion", "röstzwiebel", "gravy", "batter", "tempura", "breading", "dumpling", "wonton", "gyoza", "gnocchi", "roux",
		"bread", "old bread", "stale bread", "breadcrumb", "bread crumb", "panko", "cracker", "seitan",
		"baguette", "ciabatta", "focaccia", "toast", "rusk", "crouton", "matzo", "matzah", "matza", "tortilla", "wrap", "pitta", "pita", "naan", "chapati", "bagel", "pretzel", "bun", "roll", "crumpet", "zwieback",
		"pastry", "puff pastry", "shortcrust", "phyllo", "pie crust", "wafer", "ice cream cone", "cone", "soba", "udon", "spring roll", "play dough", "licorice", "liquorice",
		"brot", "brötchen", "brösel", "semmelbrösel", "paniermehl", "semmel", "pain", "pane", "pangrattato", "chapelure", "fregola", "tabbouleh", "kibbeh", "wheatgrass", "hydrolysed vegetable protein", "hydrolyzed vegetable protein",
	}},
	{[]Allergen{Barley}, []string{"beer", "ale", "stout", "porter", "lager"}},
	{[]Allergen{Soya, Wheat}, []string{"tamari"}},
	{[]Allergen{Sesame}, []string{"halva", "halvah"}},
	{[]Allergen{Wheat, Barley}, []string{"orzo", "malt loaf", "tritordeum"}},
	{[]Allergen{Wheat, Rye}, []string{"crispbread", "knäckebrot", "schwarzbrot", "vollkornbrot", "mischbrot"}},
	{[]Allergen{Rye, Barley}, []string{"kvass", "coffee substitute", "malt coffee", "malzkaffee"}},
	{[]Allergen{Barley}, []string{"cornflake", "corn flake", "puffed rice", "miso", "malt vinegar", "malted cereal"}},
	{[]Allergen{Oats}, []string{"muesli", "müsli", "flapjack", "oatcake", "haggis", "black pudding"}},
	{[]Allergen{Oats, SomeNut}, []string{"granola"}},
	{[]Allergen{Wheat, Egg}, []string{"egg pasta", "egg noodle", "fresh pasta", "challah", "spätzle", "ladyfinger", "lady finger", "löffelbiskuit", "ravioli", "tortellini"}},
	{[]Allergen{Wheat, Milk}, []string{"bechamel", "béchamel", "scone", "shortbread", "lasagne", "lasagna"}},
	{[]Allergen{Wheat, Egg, Milk}, []string{"brioche", "panettone", "croissant", "pancake", "waffle", "crepe", "crêpe", "muffin", "eclair", "éclair", "choux", "yorkshire pudding", "stollen", "quiche", "tiramisu", "sponge cake", "pound cake", "brownie"}},
	{[]Allergen{Egg, Milk}, []string{"lemon curd", "custard", "hollandaise", "eggnog", "egg nog", "pudding", "vanillesauce"}},
	{[]Allergen{Egg, Mustard}, []string{"mayonnaise", "mayo", "aioli", "tartare sauce", "remoulade", "salad dressing", "ranch dressing"}},
	{[]Allergen{Egg}, []string{"royal icing", "advocaat", "surimi egg", "egg substitute"}},
	{[]Allergen{Milk}, []string{
		"milk chocolate", "white chocolate", "chocolate", "caramel", "toffee", "fudge", "butterscotch", "ice cream", "gelato", "artificial butter flavor", "butter flavour", "butter flavor", "nougatine", "tzatziki", "creamer", "coffee whitener",
	}},
	{[]Allergen{Milk, Soya}, []string{"margarine"}},
	{[]Allergen{Milk, PineNut}, []string{"pesto"}},
	{[]Allergen{Soya}, []string{"lecithin", "shortening", "vegetable protein", "textured vegetable protein", "tvp", "vegetable oil", "vegetable shortening", "e322", "vitamin e"}},
	{[]Allergen{Soya, Wheat}, []string{"teriyaki", "teriyaki sauce", "ponzu", "black bean sauce"}},
	{[]Allergen{Soya, Wheat, Sesame}, []string{"hoisin", "hoisin sauce"}},
	{[]Allergen{Soya, Wheat, Molluscs}, []string{"oyster sauce"}},
	{[]Allergen{Fish}, []string{"gelatine", "gelatin", "isinglass", "dashi", "omega 3", "furikake", "bouillabaisse"}},
	{[]Allergen{Fish, Barley}, []string{"worcestershire sauce", "worcester sauce"}},
	{[]Allergen{Fish, Egg, Milk}, []string{"caesar dressing"}},
	{[]Allergen{Fish, Wheat}, []string{"taramasalata", "fish finger"}},
	{[]Allergen{Fish, Crustaceans, Egg}, []string{"surimi", "crab stick", "seafood", "seafood stick", "paella"}},
	{[]Allergen{Crustaceans, Fish}, []string{"shrimp paste", "prawn cracker", "glucosamine"}},
	{[]Allergen{Peanut}, []string{"satay", "beer nut", "artificial nut", "mandelona", "enchilada sauce", "mole"}},
	{[]Allergen{Sesame}, []string{"falafel", "hummus", "houmous", "za atar", "zaatar", "everything seasoning", "bagel seasoning", "sesame mix", "bombay mix"}},
	{[]Allergen{Sesame, Hazelnut}, []string{"dukkah", "dukka"}},
	{[]Allergen{Almond, Egg}, []string{"amaretti", "macaron", "macaroon", "turron", "turrón", "nougat"}},
	{[]Allergen{Almond}, []string{"marzipan", "frangipane", "amaretto", "orgeat", "bakewell"}},
	{[]Allergen{Hazelnut, Milk}, []string{"gianduja", "hazelnut spread", "chocolate spread", "nut nougat cream", "nuss nougat creme"}},
	{[]Allergen{Wheat, SomeNut}, []string{"baklava"}},
	{[]Allergen{SomeNut}, []string{"praline", "praline paste", "nussmus", "krokant"}},
	{[]Allergen{Celery}, []string{"stock", "stock cube", "vegetable stock", "bouillon", "bouillon cube", "broth", "mirepoix", "soup green", "soup vegetable", "suppengrün", "suppengemüse", "soffritto", "gemüsebrühe", "brühwürfel", "vegetable juice"}},
	{[]Allergen{Mustard}, []string{"curry", "curry powder", "vinaigrette", "wasabi", "panch phoron", "piccalilli", "salad cream", "marinade", "barbecue sauce", "seasoning", "spice mix"}},
	{[]Allergen{Mustard, Sulphites}, []string{"mostarda"}},
	{[]Allergen{Sulphites, Wheat}, []string{"sausage", "bratwurst", "wurst"}},
}

// fruits are dried with sulphur dioxide, or without; the word "dried" before them makes it
// likely (common practice, no source).
var fruits = []string{"apricot", "apple", "pear", "peach", "mango", "papaya", "pineapple", "banana", "fig", "date", "plum", "cherry", "cranberry", "coconut", "tomato", "blueberry", "kiwi"}

// someNuts are nuts of a kind the name does not tell.
var someNuts = []string{"nut", "tree nut", "mixed nut", "nut mix", "nut butter", "nut milk", "nut oil", "nut paste", "nut meal", "hickory nut", "beechnut", "beech nut", "pili nut", "ginkgo nut", "chinquapin", "nangai nut", "nuss", "nüsse", "nusse", "noci"}

// plants are what milk and butter without a cow are made from.
var plants = map[string][]Allergen{
	"soy": {Soya}, "soya": {Soya}, "oat": {Oats}, "almond": {Almond}, "hazelnut": {Hazelnut}, "cashew": {Cashew}, "walnut": {Walnut}, "pecan": {Pecan},
	"pistachio": {Pistachio}, "macadamia": {Macadamia}, "peanut": {Peanut}, "sesame": {Sesame}, "lupin": {Lupin},
	"rice": nil, "coconut": nil, "hemp": nil, "pea": nil, "sunflower": nil, "sunflower seed": nil, "pumpkin seed": nil, "tiger nut": nil, "cocoa": nil, "shea": nil, "apple": nil,
}
