"""The closed lists that rules are written in. A word that is not here is refused by the loader."""

from typing import Literal

Jurisdiction = Literal["US", "EU", "GB", "GB-NI", "DK", "CA", "CODEX", "AU-NZ"]
"""A place whose rules are held. ANY, in a rule file only, is this project's own guard for all of them."""

RuleJurisdiction = Literal[Jurisdiction, "ANY"]

Operator = Literal["home", "retail", "state_plant", "inspected_plant"]
"""Who works: a household, a shop or restaurant under the retail code, a plant under state or federal inspection."""

Animal = Literal["beef", "veal", "pork", "lamb", "goat", "game", "chicken", "turkey", "duck", "goose", "other_bird"]
"""What the meat is of. game: wild or farmed deer, boar, hare; wild boar and bear are where parasites are."""

BIRDS: frozenset[Animal] = frozenset(("chicken", "turkey", "duck", "goose", "other_bird"))
"""Animals that are poultry."""

AllergenName = Literal[
    "milk", "eggs", "fish", "crustaceans", "tree_nuts", "peanuts", "wheat", "soybeans", "sesame",
    "gluten_cereals", "celery", "mustard", "sulphites", "lupin", "molluscs",
]  # fmt: skip
"""What makes people ill and some law wants named. wheat is one of the gluten_cereals: laws list one or the other."""

LabelItem = Literal[
    "ingredients", "allergens", "added_solution", "no_word_enhanced", "uncured", "no_nitrite_added", "not_preserved",
    "keep_cold", "raw_handling", "species", "allergens_emphasised", "additives_by_category",
    "sulphites",
]  # fmt: skip
"""What a label has to say besides its name: one word for each, whatever the law that asks for it."""

AdditiveCategory = Literal[
    "preservative", "antioxidant", "acidity regulator", "stabiliser", "emulsifier", "thickener", "gelling agent",
    "flavour enhancer", "colour", "anti-caking agent", "raising agent", "humectant", "sweetener",
]  # fmt: skip
"""What an additive does, in the words of the European list of categories."""

Evidence = Literal["read", "reported", "recalled", "own"]
"""read: primary text read. reported: a secondary source. recalled: from memory. own: this project's guard."""

Force = Literal["law", "policy", "advice", "guard"]

Measure = Literal[
    "nitrite", "nitrate",
    "ascorbate_or_erythorbate", "ascorbic_acid", "erythorbic_acid", "sodium_ascorbate", "sodium_erythorbate",
    "citric_acid_or_citrate", "fumaric_acid", "glucono_delta_lactone", "sodium_acid_pyrophosphate",
    "weight_gain", "weight_loss", "finished_weight", "piece_weight", "protein_fat_free",
    "salt", "brine_concentration", "fat", "fat_plus_added_water", "added_water", "meat", "poultry", "label_strength",
    "sale",
]  # fmt: skip
"""What a rule measures."""

Stage = Literal["ingoing", "residual", "pickle", "cured", "finished", "curing_salt"]
"""When it is measured: going in, left at the end, in the pickle, after curing, in the finished piece, on the label."""

Bound = Literal["maximum", "minimum", "level", "statement"]
"""level: the figure must equal the value. statement: words without a number."""

Expression = Literal[
    "sodium_nitrite", "potassium_nitrite", "nitrite_salt_by_weight", "nitrite_ion",
    "sodium_nitrate", "nitrate_salt_by_weight", "nitrate_ion",
    "by_weight", "anhydrous_sodium_salt", "unconfirmed",
]  # fmt: skip
"""As which substance the number is written. *_salt_by_weight: the same cap for sodium and potassium salt."""

Basis = Literal[
    "green_weight", "skin_free_green_weight", "skin_on_green_weight", "whole_batch", "product_at_addition",
    "whole_system", "whole_system_after_stay", "pickle", "any_reading", "curing_salt", "finished_product",
    "accelerator_used", "per_piece", "non_fat_portion", "total_ingredients", "ingredients_without_water",
    "unconfirmed",
]  # fmt: skip
"""The weight it is divided by."""

RuleUnit = Literal["ppm", "mg/kg", "percent", "lb"]

ProductClass = Literal[
    "wet_cured", "dry_cured", "comminuted",
    "bacon_pumped", "bacon_immersed", "bacon_dry",
    "meat_preparation", "not_heat_treated", "heat_treated", "sterilised", "slow_cured", "canned_cured",
    "wiltshire_bacon", "wiltshire_ham", "cured_tongue", "raw_ham_wet_cured", "raw_ham_dry_cured",
    "raw_ham_dry_and_wet_cured", "dry_cured_bacon", "dry_cured_ham", "iberian_dry_ham", "jellied_veal_and_brisket",
    "traditional_fermented_salami", "traditional_raw_sausage", "traditional_dry_sausage", "filet_bacon",
    "cold_smoked_reindeer", "traditional_salted_pork_parts", "other_traditionally_cured",
    "cooked_whole_piece", "cooked_comminuted", "canned_corned_beef",
    "infant_food", "smoked_fish", "home_cure_preparation",
    "corned_brisket", "corned_other_cut", "corned_beef_canned_us", "cured_tongue_us",
    "cooked_ham_or_loin", "cooked_shoulder", "uncooked_cured_ham_or_loin", "uncooked_cured_shoulder", "ham_patty",
    "country_ham", "frankfurter_type", "fresh_pork_sausage", "fresh_beef_sausage", "smoked_pork_sausage",
    "cooked_sausage", "italian_sausage", "whole_hog_sausage", "breakfast_sausage", "ground_beef",
    "pastrami", "barbecued_meat",
]  # fmt: skip
"""What a product is to the law. A product usually belongs to several."""

Circumstance = Literal[
    "skin_on", "skin_off", "sodium_nitrite", "potassium_nitrite",
    "keep_refrigerated", "keep_frozen", "shelf_stable", "strength_on_label",
    "pickle", "immersed", "cooked", "canned", "without_added_nitrite", "listed_preparation", "other_animal",
    "named_common", "named_with_natural_juices", "named_water_added", "with_nitrate_or_nitrite",
    "without_nitrate_or_nitrite",
]  # fmt: skip
"""What else must be so before a rule applies."""

Fact = Literal[ProductClass, Circumstance]
