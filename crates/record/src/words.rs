//! The fixed list of words pieces are called by.
//!
//! Four letters, spoken aloud through gloves and a cold phone; any two differ in at least two letters, so that a rubbed label
//! still finds one piece. None offends, none is a name, none is a word of the trade.

/// The words in the order they are given out.
pub(crate) const WORDS: &[&str] = &[
    "TARN", "DUSK", "KELP", "MOOR", "OAKS", "ELMS", "MOSS", "PINE", "FIRS", "YEWS", "LIME", "PLUM", "SLOE",
    "MINT", "DILL", "MALT", "HOPS", "TWIG", "ROOT", "BUDS", "STEM", "PODS", "PITH", "LOGS", "KNOT", "BURL",
    "WOOD", "WEIR", "POND", "LAKE", "LOCH", "MERE", "POOL", "COVE", "BAYS", "CAPE", "ISLE", "REEF", "BANK",
    "DUNE", "SAND", "SILT", "LOAM", "PEAT", "MARL", "GRIT", "CRAG", "VALE", "COMB", "VELD", "RAIN", "SNOW",
    "HAIL", "HAZE", "GUST", "WIND", "LULL", "CALM", "TIDE", "WAVE", "SURF", "EDDY", "EBBS", "FLOW", "STAR",
    "NOON", "MORN", "LARK", "KITE", "HAWK", "SWAN", "TEAL", "RUFF", "IBIS", "EMUS", "KIWI", "AUKS", "OWLS",
    "LYNX", "IBEX", "ORYX", "NEWT", "FROG", "MOTH", "BOAT", "KEEL", "PROW", "ROPE", "BUOY", "DOCK", "QUAY",
    "YAWL", "PUNT", "TUGS", "HELM", "CLEW", "TACK", "WEFT", "JUTE", "HEMP", "FLAX", "FELT", "CORD", "SEAM",
    "VEST", "DRUM", "LYRE", "OBOE", "VIOL", "BELL", "GONG", "TUBA", "ODES", "IRON", "ZINC", "GOLD", "TALC",
    "GEMS", "LAMP", "WICK", "COAL", "KILN", "RASP", "GATE", "WALL", "ARCH", "DOME", "HUTS", "LOFT", "YARD",
    "LAWN", "ROAD", "KERB", "BOOK", "INKS", "MAPS", "CAMS", "AXLE", "PUMP", "HOSE", "BOWL", "EWER", "JARS",
    "CASK", "VATS", "SOFA", "CRIB", "LOOP", "RING", "CUBE", "AXIS", "MESH", "WEBS", "YOYO", "TENT", "SKIS",
    "BLUE", "CYAN", "GREY", "ALTO", "ECHO", "TONE", "APEX", "ATOM", "AVID", "BIRD", "BRIM", "BULB", "BUZZ",
    "CHIP", "CLOG", "CROP", "CUSP", "DART", "EPIC", "ETCH", "FOIL", "GALA", "GLEE", "HUSH", "IDEA", "IDYL",
    "LAVA", "LIDO", "LOBE", "NEAP", "ORCA", "OVAL", "PACE", "PERK", "POEM", "POLE", "RYES", "SAGA", "SKEP",
    "SNAP", "SNUG", "SOLO", "SPIN", "SPOT", "SPUR", "SUNS", "SWIM", "TOGA", "TREE", "TRIO", "TROT", "TUFT",
    "VEER", "VIEW", "WHEY", "WHIM", "WISP", "YOKE", "YURT", "ZOOM",
];
