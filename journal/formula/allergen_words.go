package formula

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
var phrases = makePhrases()

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
	for _, n := range someNuts {
		m[foldPhrase(n)] = word{allergens: []Allergen{SomeNut}, unsure: true}
	}
	for _, n := range fillers {
		m[foldPhrase(n)] = word{filler: true}
	}
	for plant, tells := range plants {
		for _, dairy := range []string{"milk", "butter", "yoghurt", "yogurt", "drink"} {
			m[foldPhrase(plant+" "+dairy)] = word{allergens: tells}
		}
	}
	for _, plant := range []string{"soy", "soya", "oat", "rice", "coconut"} {
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
		"couscous", "freekeh", "atta", "maida", "manitoba", "gluten", "vital gluten", "seitan", "graham", "graham flour", "semola",
		"all purpose flour", "bread flour", "plain flour", "strong flour", "white flour", "cake flour", "pastry flour",
		"self raising flour", "self rising flour", "patent flour", "breadcrumb", "bread crumb", "cracker", "panko", "stale bread", "old bread", "bread",
		"tipo 00", "tipo 0", "tipo 1", "tipo 2", "wheatgerm", "wheatmeal", "malted wheat", "polish wheat", "filo", "noodle", "pasta",
		"weizen", "weizenmehl", "weizenvollkornmehl", "weizenkleie", "dinkelmehl", "dinkelvollkornmehl", "hartweizen", "hartweizengriess",
		"emmermehl", "einkornmehl", "grünkern", "ble", "blé", "froment", "epeautre", "épeautre", "petit épeautre", "grano", "frumento", "grano duro", "trigo", "espelta",
	}},
	{[]Allergen{Wheat, Barley}, []string{"malted flour", "granary", "granary flour"}},
	{[]Allergen{Wheat, Barley, Milk}, []string{"malted milk", "malted milk powder"}},
	{[]Allergen{Rye}, []string{"rye", "pumpernickel", "roggen", "roggenmehl", "roggenvollkornmehl", "roggenschrot", "seigle", "segale", "centeno"}},
	{[]Allergen{Wheat, Rye}, []string{"triticale"}},
	{[]Allergen{Barley}, []string{
		"barley", "malt", "malt extract", "malt flour", "malt syrup", "diastatic malt", "bere", "beremeal", "beer", "ale", "stout", "porter", "lager",
		"gerste", "gerstenmehl", "gerstenmalz", "malz", "bier", "orge", "bière", "birra", "brewer s yeast", "brewers yeast", "yeast extract", "bierhefe",
	}},
	{[]Allergen{Oats}, []string{"oat", "oatmeal", "oatbran", "porridge", "hafer", "haferflocken", "hafermilch", "avoine", "avena"}},
	{[]Allergen{Milk}, []string{
		"milk", "butter", "buttermilk", "cream", "creme", "crème fraiche", "crème fraîche", "creme fraiche", "cheese", "cheddar", "parmesan", "feta", "mozzarella", "ricotta", "gouda", "emmental",
		"gruyere", "gruyère", "mascarpone", "pecorino", "yoghurt", "yogurt", "yoghourt", "kefir", "whey", "casein", "caseinate", "ghee", "lactose",
		"skyr", "quark", "curd", "dulce de leche", "milch", "vollmilch", "milchpulver", "buttermilch", "sahne", "käse", "molke", "joghurt", "lait", "beurre", "fromage", "latte", "burro", "formaggio", "leche", "mantequilla",
	}},
	{[]Allergen{Egg}, []string{"egg", "eggwash", "albumen", "albumin", "meringue", "ei", "eier", "eigelb", "oeuf", "œuf", "uovo", "uova", "huevo"}},
	{[]Allergen{Egg, Milk}, []string{"lemon curd", "custard"}},
	{[]Allergen{Egg}, []string{"mayonnaise", "mayo"}},
	{[]Allergen{Fish}, []string{"fish", "anchovy", "anchovies", "tuna", "salmon", "cod", "haddock", "herring", "sardine", "mackerel", "bonito", "bottarga", "fish sauce"}},
	{[]Allergen{Crustaceans}, []string{"crustacean", "shrimp", "prawn", "crab", "lobster", "crayfish", "langoustine", "krill"}},
	{[]Allergen{Molluscs}, []string{"mollusc", "mollusk", "mussel", "oyster", "clam", "squid", "octopus", "cuttlefish", "squid ink", "scallop", "snail", "whelk"}},
	{[]Allergen{Peanut}, []string{"peanut", "groundnut", "ground nut", "monkey nut", "peanut butter", "erdnuss", "erdnüsse", "erdnussbutter", "cacahuète", "arachide"}},
	{[]Allergen{Soya}, []string{
		"soy", "soya", "soja", "soybean", "soyabean", "soy bean", "soya bean", "soy milk", "soya milk", "tofu", "tempeh", "edamame", "soy flour", "soya flour", "soy lecithin", "soya lecithin",
		"okara", "natto", "tamari", "sojamilch", "latte di soia", "soia",
	}},
	{[]Allergen{Soya, Wheat}, []string{"soy sauce", "soya sauce", "shoyu"}},
	{[]Allergen{Sesame}, []string{"sesame", "tahini", "tahina", "tahin", "sesam", "sésame", "sesamo", "benne", "benniseed", "gomasio", "gomashio", "halva", "halvah", "hummus", "houmous", "za atar", "zaatar"}},
	{[]Allergen{Almond}, []string{"almond", "marzipan", "frangipane", "almond milk", "almond butter", "almond flour", "almond meal", "almond oil", "mandel", "mandelmilch", "amande", "lait d amande", "mandorla", "latte di mandorla"}},
	{[]Allergen{Almond, Egg}, []string{"amaretti"}},
	{[]Allergen{Hazelnut}, []string{"hazelnut", "hazel nut", "filbert", "cobnut", "cob nut", "hazelnut butter", "hazelnut milk", "haselnuss", "haselnüsse", "noisette", "nocciola"}},
	{[]Allergen{Walnut}, []string{"walnut", "walnuss", "walnüsse", "noix", "noce"}},
	{[]Allergen{Cashew}, []string{"cashew", "cashew nut", "cashew butter", "cashew milk"}},
	{[]Allergen{Pecan}, []string{"pecan", "pecan nut"}},
	{[]Allergen{BrazilNut}, []string{"brazil nut", "brazil"}},
	{[]Allergen{Pistachio}, []string{"pistachio", "pistachio nut", "pistachio butter", "pistazie", "pistache", "pistacchio"}},
	{[]Allergen{Macadamia}, []string{"macadamia", "macadamia nut", "queensland nut"}},
	{[]Allergen{PineNut}, []string{"pine nut", "pinenut", "pine kernel", "pinenkern", "pignoli"}},
	{[]Allergen{SomeNut}, []string{"praline paste", "nussmus"}},
	{[]Allergen{Celery}, []string{"celery", "celeriac", "celery salt", "celery seed", "sellerie"}},
	{[]Allergen{Mustard}, []string{"mustard", "senf", "moutarde", "senape"}},
	{[]Allergen{Sulphites}, []string{"sulphite", "sulfite", "sulphur dioxide", "sulfur dioxide", "metabisulphite", "metabisulfite", "wine", "cider"}},
	{[]Allergen{Lupin}, []string{"lupin", "lupine", "lupin flour", "lupine flour"}},
}

// harmless are names known to tell of nothing on either list. Those that look
// like an allergen and are none stand first.
var harmless = []string{
	"buckwheat", "buck wheat", "buckwheat flour", "nutmeg", "eggplant", "egg plant", "coconut", "coconut milk", "coconut cream", "coconut butter", "coconut oil", "coconut flour", "coconut water",
	"rice milk", "rice flour", "rice semolina", "rice noodle", "corn semolina", "maize semolina", "potato flour", "chickpea flour", "cocoa butter", "shea butter", "apple butter", "butter bean", "butterbean", "butternut squash",
	"cream of tartar", "chestnut", "chestnut flour", "water chestnut", "tiger nut", "tigernut", "tigernut flour", "hemp milk", "milk thistle", "oyster mushroom", "fish mint", "malt vinegar free",
	"buchweizen", "buchweizenmehl", "sarrasin", "grano saraceno", "muskatnuss", "kokosnuss", "kokosmilch", "noce moscata", "noix de coco", "noix de muscade", "beurre de cacao", "lait de coco", "latte di riso", "latte di cocco", "reismilch",
	"water", "salt", "sea salt", "sugar", "honey", "syrup", "maple syrup", "golden syrup", "agave", "orange", "lemon", "lime",
	"olive", "tomato", "onion", "garlic", "leek", "carrot", "beetroot", "beet", "pumpkin", "pumpkin seed", "squash", "potato", "sweet potato", "courgette", "spinach", "chilli", "chili", "pepper", "paprika",
	"rosemary", "thyme", "oregano", "basil", "sage", "dill", "parsley", "chive", "mint", "caraway", "fennel", "anise", "aniseed", "coriander", "cumin", "cardamom", "cinnamon", "clove", "ginger", "turmeric", "saffron", "nigella", "vanilla",
	"rice", "corn", "cornmeal", "cornflour", "cornstarch", "maize", "polenta", "masa", "millet", "sorghum", "teff", "amaranth", "quinoa", "fonio", "tapioca", "cassava", "manioc", "arrowroot", "potato starch", "chickpea", "lentil", "pea", "bean", "carob",
	"sunflower", "sunflower seed", "flax", "flaxseed", "linseed", "poppy", "poppy seed", "chia", "hemp", "psyllium", "acorn",
	"oil", "olive oil", "rapeseed", "canola", "lard", "dripping", "yeast", "baking soda", "bicarbonate", "vinegar", "cocoa", "coffee", "espresso", "tea", "ascorbic acid", "vitamin c",
	"reis", "reismehl", "mais", "maismehl", "hirse", "salz", "wasser", "hefe", "zucker", "honig", "leinsamen", "sonnenblumenkern", "kürbiskern", "riz", "sel", "eau", "levure", "miel", "sale", "acqua", "riso",
}

// mixtures may hold anything; what else the name tells is told, but not for sure.
var mixtures = []string{
	"mix", "mixture", "blend", "muesli", "granola", "multigrain", "multiseed", "seed mix", "mixed seed", "mixed grain", "spice mix", "seasoning", "stock", "bouillon", "broth", "curry", "curry powder", "pesto",
	"chocolate", "praline", "nougat", "fudge", "caramel", "margarine", "shortening", "improver", "lecithin", "starch", "spread", "filling", "glaze", "topping", "miso", "worcestershire sauce", "worcester sauce", "hydrolysed protein", "protein",
	"vegan butter", "vegan cheese", "vegan milk", "vegan cream", "plant milk", "plant butter", "plant cream", "dairy free milk", "doughnut", "donut", "biscuit", "cookie", "cake", "sausage", "ham", "bacon", "surimi", "dried fruit", "butternut", "nutritional yeast", "vegetable oil",
	"bread spice", "brotgewürz", "müsli", "mischung", "mélange",
}

// fillers say nothing by themselves.
var fillers = []string{
	"flour", "mehl", "farine", "farina", "harina", "meal", "white", "strong", "extra", "very", "plain", "brown", "light", "medium", "dark", "fine", "coarse", "whole", "wholemeal", "wholegrain", "grain", "organic", "bio", "stoneground", "stone", "ground",
	"type", "typ", "tipo", "high", "low", "extraction", "unbleached", "bleached", "enriched", "sifted", "bolted", "fresh", "freshly", "milled", "roasted", "toasted", "soaked", "cracked", "rolled", "flaked", "flake", "chopped", "sliced", "dried",
	"sprouted", "malted", "warm", "cold", "hot", "tap", "filtered", "the", "a", "of", "and", "with", "from", "my", "our", "local", "seed", "kernel", "berry", "germ", "bran", "powder", "for", "dusting", "purpose", "all", "pinch", "some", "new", "old", "wild", "raw", "unsalted", "salted", "skimmed", "semi",
	"culture", "starter", "levain", "sourdough", "leaven", "poolish", "biga", "sponge", "soaker", "scald",
	"di", "de", "du", "la", "le", "und", "et", "e", "vollkorn",
}

// perhaps are names that tell of an allergen which not every such thing holds.
//
// Sulphites keep the colour of dried, candied and glacé fruit, of dried potato and
// of some molasses, often above the 10 mg/kg from which EU 1169/2011, Annex II,
// wants them named; a name does not say whether the fruit was dried (which foods:
// common practice, no source). Packet suet is dusted with flour, usually of wheat or
// rice (common practice, no source). Orzo is barley in Italian, pasta of wheat in
// English.
var perhaps = []struct {
	tells []Allergen
	names []string
}{
	{[]Allergen{Sulphites}, []string{
		"golden raisin", "dried apricot", "apricot dried", "glacé cherry", "glace cherry", "candied cherry", "cocktail cherry", "maraschino cherry",
		"candied peel", "mixed peel", "candied fruit", "glacé fruit", "glace fruit", "crystallised ginger", "crystallized ginger", "candied ginger", "orangeat", "zitronat",
		"dried potato", "potato flake", "instant potato",
	}},
	{nil, []string{
		"date", "fig", "raisin", "sultana", "currant", "cranberry", "cherry", "prune", "apricot", "apple", "pear", "peach", "mango", "papaya", "pineapple", "banana",
		"rosine", "rosinen", "sultanine", "sultaninen", "aprikose", "aprikosen", "marille", "marillen", "feige", "feigen", "dattel", "datteln", "raisin sec", "abricot", "uvetta", "albicocca",
		"orange peel", "lemon peel", "stem ginger", "sundried tomato", "sun dried tomato", "dried tomato", "desiccated coconut", "molasses", "treacle", "melasse",
	}},
	{[]Allergen{Wheat}, []string{"suet", "vegetable suet", "beef suet", "packet suet"}},
	{[]Allergen{Wheat, Barley}, []string{"orzo"}},
}

// someNuts are nuts of a kind the name does not tell.
var someNuts = []string{"nut", "tree nut", "mixed nut", "nut mix", "nut butter", "nut milk", "nut oil", "nuss", "nüsse", "nusse", "noci"}

// plants are what milk and butter without a cow are made from.
var plants = map[string][]Allergen{
	"soy": {Soya}, "soya": {Soya}, "oat": {Oats}, "almond": {Almond}, "hazelnut": {Hazelnut}, "cashew": {Cashew}, "walnut": {Walnut}, "pecan": {Pecan},
	"pistachio": {Pistachio}, "macadamia": {Macadamia}, "peanut": {Peanut}, "sesame": {Sesame}, "lupin": {Lupin},
	"rice": nil, "coconut": nil, "hemp": nil, "pea": nil, "sunflower": nil, "sunflower seed": nil, "pumpkin seed": nil, "tiger nut": nil, "cocoa": nil, "shea": nil, "apple": nil,
}
