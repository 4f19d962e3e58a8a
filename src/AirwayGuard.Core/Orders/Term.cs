namespace AirwayGuard.Core.Orders;

/// <summary>What a word or phrase of an order's text stands for.</summary>
internal enum Term : byte
{
    /// <summary>A word that says nothing here.</summary>
    Word,
    Number,

    /// <summary>A word that may stand beside anything of suction.</summary>
    Plain,

    /// <summary>Hundred, thousand: the number before or behind it is not the whole number.</summary>
    Hundred,

    // Signs.
    Sentence,
    ListItem,
    Comma,
    Colon,
    Slash,
    Opens,
    Closes,
    Dash,

    // Units; of a pressure the unit stands with the piece.
    Pressure,
    French,
    Centimetre,
    Millimetre,
    Second,
    Minute,
    Hour,
    Day,
    Percent,
    Millilitre,
    OtherUnit,

    // How a number bounds.
    AtMost,
    Below,
    AtLeast,
    Above,
    About,
    CapBehind,
    FloorBehind,

    // Small words.
    And,
    Or,
    To,
    Arrow,
    Between,
    From,
    With,
    At,
    For,
    Then,
    Only,
    Not,
    Nothing,
    Yes,
    Is,

    // When.
    Needed,
    If,
    Unless,
    While,
    Until,
    Every,
    Hourly,
    TimesADay,
    Times,
    ADay,
    Shift,
    Scheduled,
    Routinely,
    Strictly,
    Discretion,
    Proviso,
    Wanted,
    Unchecked,
    Checked,
    Sign,
    Indication,

    // The act, its place and its gear.
    Suction,
    Airway,
    Elsewhere,
    Catheter,
    Size,
    Gear,
    Vacuum,
    PressureWord,
    Regulator,
    Vague,
    FullLine,
    Intermittent,

    // What is no suction.
    Care,
    Assess,
    Replace,
    Quantity,

    // Fields.
    Saline,
    Instil,
    Preoxygenate,
    Oxygen,
    Full,
    Before,
    Closed,
    Open,
    Technique,
    Deep,
    Shallow,
    Depth,

    // What changes an order.
    Hold,
    Forbidden,
    Resume,
    Change,
    Earlier,
    History,
    Rating,
    PartOfDay,
    Permitted,
    TooLittle,
    Instead,
    By,
    Delta,
    Call,

    /// <summary>How the act is not to be done: vigorously, alone; of value 1 without need.</summary>
    Manner,

    /// <summary>At which point of something: after, on, in, past.</summary>
    Phase,
}
