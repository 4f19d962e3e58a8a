using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Orders;

/// <summary>The table of the lexicon. Words of a phrase stand apart by one blank; a hyphen between words counts as one.</summary>
internal static class LexiconWords
{
    public static readonly (Unit Unit, string Words)[] Pressures =
    [
        (Unit.MmHg, "mmhg | mm hg | mm of hg | mm of mercury | mm mercury | millimetres of mercury | millimeters of mercury | mmhgs"),
        (Unit.Kilopascal, "kpa | kilopascal | kilopascals | k pa"),
        (Unit.CmH2O, "cmh2o | cm h2o | cmh20 | cm h20 | cm of water | cm water | centimetres of water | centimeters of water | cmwater"),
        (Unit.InHg, "inhg | in hg | inches of mercury | inch of mercury | inches mercury | inches hg | inch hg"),
        (Unit.CmHg, "cmhg | cm hg | cm of mercury | centimetres of mercury | centimeters of mercury"),
        (Unit.Millibar, "mbar | millibar | millibars | mb"),
        (Unit.Hectopascal, "hpa | hectopascal | hectopascals"),
    ];

    public static readonly (Term Term, decimal Value, string Words)[] Values =
    [
        (Term.Suction, 1m, "suctioned"),
        (Term.And, Shade.Sharper, "+ | plus"),
        (Term.Not, Shade.No, "no"),
        (Term.Gear, 1m, "set up | setup | working | functioning | functional | in working order"),
        (Term.If, Shade.OnlyIf, "only when | only if | only where"),
        (Term.Hour, 1m, "hs"),
        (Term.TimesADay, 0m, "at bedtime | qhs | q hs | at hs | bedtime"),
        (Term.Plain, Shade.HalfOfDay, "am | pm"),
        (Term.Plain, Shade.Written, "ordered | written | entered | updated | start | starting | begin"),
        (Term.If, Shade.EachTime, "every time | each time"),
        (Term.Closed, 1m, "closed | enclosed | closd"),
        (Term.Not, Shade.Nor, "nor"),
        (Term.Plain, Shade.Off, "off | false"),
        (Term.Plain, Shade.Reason, "because | due | since | as | per | owing"),
        (Term.Plain, Shade.Rise, "higher | more | stronger"),
        (Term.Plain, Shade.Now, "now | current | currently | from now on"),
        (Term.Plain, Shade.New, "new"),
        (Term.Then, Shade.Sharper, "no i mean | i mean | make that | correction | scratch that | oops | sorry | corrected to | correction to"),
        (Term.Needed, Shade.Sharper, "if needed | if required | if necessary | when needed | when required | when necessary | wen needed"),
        (Term.Number, 1m, "one | a single"),
        (Term.Number, 2m, "two"),
        (Term.Number, 3m, "three"),
        (Term.Number, 4m, "four"),
        (Term.Number, 5m, "five"),
        (Term.Number, 6m, "six"),
        (Term.Number, 7m, "seven"),
        (Term.Number, 8m, "eight"),
        (Term.Number, 9m, "nine"),
        (Term.Number, 10m, "ten"),
        (Term.Number, 12m, "twelve"),
        (Term.Number, 15m, "fifteen"),
        (Term.Number, 20m, "twenty"),
        (Term.Number, 24m, "twenty four"),
        (Term.Number, 3m, "third"),
        (Term.Number, 4m, "fourth"),
        (Term.Number, 6m, "sixth"),
        (Term.Number, 8m, "eighth"),
        (Term.Number, 30m, "thirty"),
        (Term.TimesADay, 24m,
            """
            qd | once daily | daily | once a day | once per day | every day | each day | nightly | every night | at bedtime daily | qam | qpm | q am | q pm |
            every morning | every evening | each morning
            """),
        (Term.TimesADay, 12m, "bid | bd | twice daily | twice a day | twice per day"),
        (Term.TimesADay, 8m, "tid | tds | thrice daily | thrice a day"),
        (Term.TimesADay, 6m, "qid | qds"),
        (Term.TimesADay, 48m, "qod | every other day | alternate days"),
        (Term.TimesADay, 2m, "every other hour | alternate hours"),
        (Term.TimesADay, 1m, "qh | every hour | each hour | once an hour | once per hour"),
        (Term.TimesADay, 0.5m, "every half hour | half hourly"),
        (Term.TimesADay, 168m, "weekly | every week | once a week"),
        (Term.Airway, 1m, "nasotracheal | orotracheal | nt"),
        (Term.Catheter, 1m, "suction catheter | suction cath | suction catheters | sx cath | sx catheter | sx caths"),
        (Term.Vacuum, 1m,
            """
            suction pressure | suction vacuum | sx pressure | suction level | suction strength | suction setting | sx vacuum | sx press | suction press |
            suction pressures | suction force
            """),
        (Term.Quantity, 1m, "fio2 | fi o2 | inspired oxygen | oxygen concentration"),
        (Term.Saline, -1m, "nosaline | nolavage | nons | saline off"),
        (Term.OtherUnit, 1m, "mpa | pa | torr | psi | bar | passes | pass | attempts"),
        (Term.TimesADay, 0m, "qshift | q shift | each shift | every shift | once a shift | once per shift | once each shift | per shift"),
        (Term.Sign, 1m, "thick | thick secretions | tenacious | tenacious secretions | thick mucus | thick plugs | thick secretion"),
        (Term.Times, 1m, "once"),
        (Term.Times, 2m, "twice"),
        (Term.Times, 3m, "thrice"),
        (Term.Times, 0m, "times | x | × | time"),
    ];

    public static readonly (Term Term, string Words)[] Terms =
    [
        (Term.PartOfDay, "by day | by night | at night | during the day | during the night | overnight | night | nights | daytime | night time | nighttime | in the day"),
        (Term.Rating,
            """
            delivers | deliver | delivery | supplies | supply | rated | tested | capacity | bursts | alarm limit | capable | output | occlude tubing |
            suction check | test | tests | up to its
            """),
        (Term.Checked, "☑ | ☒ | ✓ | ✔ | ■"),
        (Term.Unchecked, "☐ | □ | ◻ | ▢"),
        (Term.Wanted, "needed | necessary | available | need | needs"),
        (Term.Proviso, "tolerated | awake | stable | able | possible | asleep | cooperative | well enough"),
        (Term.Hundred, "hundred | thousand"),
        (Term.French, "fr | f | ch | fg | french | charriere | charrière | frs"),
        (Term.Centimetre, "cm | cms | centimetre | centimetres | centimeter | centimeters"),
        (Term.Millimetre, "mm | millimetre | millimetres | millimeter | millimeters"),
        (Term.Second, "s | sec | secs | second | seconds"),
        (Term.Minute, "min | mins | minute | minutes | m"),
        (Term.Hour, "h | hr | hrs | hour | hours | ° | º"),
        (Term.Day, "d | day | days"),
        (Term.Percent, "percent | per cent | pct"),
        (Term.Millilitre, "ml | mls | cc | ccs | millilitre | millilitres | milliliter | milliliters | drop | drops"),
        (Term.OtherUnit,
            """
            kg | g | l | lpm | atm | points | point | y | yo | yr | yrs | year | years | months | month | weeks | week | wk | wks | mcg | mg | bpm | inch | inches |
            mo
            """),
        (Term.AtMost,
            """
            at most | up to | no more than | not more than | no higher than | not higher than | no greater than | not greater than | not above |
            not over | never above | never over | never more than | not to exceed | do not exceed | dont exceed | not exceed | never exceed | not exceeding |
            must not exceed | should not exceed | without exceeding | nte | ceiling | cap | capped | upper limit | limit | limited | do not go over |
            do not go above | never go over | never go above | no deeper than | not deeper than | no larger than | not larger than | no bigger than |
            not bigger than | no longer than | not longer than | no wider than | not wider than | top | keep within | within | no more often than |
            not more often than | no oftener than | not more frequently than | no more frequently than | no further than | not beyond | but no more than |
            and no more than | but not more than | and not more than | and no higher than | but no higher than | and not above | but not above | but at most |
            and at most | but never above | and never above | yet not above | but not over | and not over | never beyond | no deeper | no farther than |
            more than is never | tops out | do not pass | never deeper than | never larger than | do not use more than | do not use over | do not use above | ≤ | do not pass beyond | do not pass catheter beyond | do not advance beyond | do not go beyond | do not insert beyond |
            upper
            """),
        (Term.Below, "below | under | less than | < | lower than | stay under | keep under | keep below | stay below | fewer than | smaller than | beneath"),
        (Term.AtLeast,
            """
            at least | minimum | not less than | no less than | not below | never below | not under | ≥ | lower limit | no lower than | not lower than | floor |
            not less often than | no less often than | not less frequently than
            """),
        (Term.Above,
            """
            above | over | more than | > | greater than | higher than | exceeding | exceeds | more often than | more frequently than | oftener than | deeper than |
            longer than | larger than | in excess of
            """),
        (Term.About, "~ | about | around | approximately | approx | roughly | circa | ca | ±"),
        (Term.CapBehind,
            """
            or less | or below | or lower | or smaller | or under | or fewer | or shallower | and below | and under | and less | as a ceiling | as ceiling |
            as the ceiling | as a maximum | as maximum | as the maximum | at the most | is the limit | is the maximum | is the ceiling | is the most | and no more |
            and no higher | and not more | and not higher | but no more | not more | no more | as an upper limit | as upper limit | tops
            """),
        (Term.FloorBehind, "or more | or above | or higher | or over | and above | and over | or greater | at the least | as a minimum | or larger | or bigger | or deeper | or wider | upwards | and upwards | and higher"),
        (Term.And,
            """
            more often | more frequently | sooner | and | & | n | as well as | in addition | in addition to | also | additionally | along with |
            together with | or more often | or more frequently | or sooner | extra | additional
            """),
        (Term.Or, "or | versus"),
        (Term.Dash, "minus | neg | negative"),
        (Term.To, "to | through to | thru"),
        (Term.Arrow, "→"),
        (Term.Between, "between"),
        (Term.From, "from"),
        (Term.With, "with | w | using | by means of | use | via | through | c | c̄"),
        (Term.At, "at | @ | set | set to | set at | apply | applying"),
        (Term.For, "for"),
        (Term.Then, "then | otherwise | else | but | however | thereafter | afterwards"),
        (Term.Only, "only | solely"),
        (Term.Not,
            """
            not | do not | dont | does not | must not | should not | cannot | can not | may not | never | without | w o | avoid | avoiding | omit | skip |
            non | refrain from | neither | need not | mustnt | shouldnt | is not | are not | isnt | arent | not be | must not be | should not be |
            is not to be | are not to be | not to be | zero | sans | neglect | forgo | forego | forget | dnt | ø | s̄ | 🚫 | ❌ | ✗ | ✘ | ⛔
            """),
        (Term.Nothing, "nothing | none | nil | n a"),
        (Term.Yes,
            """
            yes | required | please | pls | do not forget | dont forget | never forget | remember | do not delay | dont delay | never delay | do not leave |
            dont leave | never leave | do not miss | do not postpone
            """),
        (Term.Is,
            """
            is | are | be | being | of | the | a | an | = | remains | remain | stays | stay | keep | kept | must | should | may | can | will | has | have | this |
            that | these | any | all | it | its | her | his | their | patient | pt | patients
            """),
        (Term.Needed,
            """
            prn | as reqd | as req | when reqd | if reqd | when req | if nec | as nec | pro re nata | pnr | pr n | p r n | asneeded | when need |
            on patients request | at patients request | on the patients request | at the patients request | upon request | on need only | whenever the need arises |
            when the need arises | as needed | whenever needed | as necessary | as required | as indicated | when indicated | if indicated | whenever indicated | whenever required | whenever necessary |
            clinical need | on need | as clinically indicated | when clinically indicated | if clinically indicated | as clinically needed | by need |
            according to need | per need | when clinically needed | on demand | on request | at need | if clinically needed | when clinically required |
            as the need arises | need based | based on need | sos | on clinical indication | clinical indication | patient requests | patient request |
            as often as needed | as often as necessary | as often as required | where needed | where indicated | where required | with need | as patient needs |
            when the patient needs it | when needs it | for need | only with need | as condition warrants | as warranted | when warranted | if warranted |
            as appropriate | when appropriate | ad lib | ad hoc | symptom driven | need driven | need led | needs led | individual need | patient need |
            patients need | as patient condition requires | as condition requires | as the condition requires | as the situation requires | depending on need |
            assessed need | as clinically required | clinically needed | clinically indicated | clinically required | as condition dictates |
            as clinically warranted | as secretions dictate | as secretions require | as secretions warrant | as patient requires | as the patient requires |
            when clinically warranted | as felt necessary | as judged necessary | when judged necessary | as deemed necessary | when deemed necessary |
            if deemed necessary | prn only | on an as needed basis | on as needed basis | as needed basis | when called for | as called for | patient led |
            on indication | upon indication | only on indication | by indication | need based only | when it is needed | when really needed | when there is need |
            when there is a need | if there is a need | if there is need
            """),
        (Term.If,
            """
            if | when | whenever | in case of | in the event of | as soon as | in response to | on hearing | on seeing | should there be | at signs of |
            at any sign of | where | provided | with signs of | on signs of | upon | once there are | once there is | in presence of | in the presence of |
            guided by | based on | prompted by | triggered by | directed by | any time | anytime | should secretions | should the patient |
            should he | should she | at the first sign of | at the first sound of | at first sign of | on auscultation of | once secretions | after hearing |
            after seeing | with evidence of | on evidence of | for evidence of | cued by | in event of | where there is | where there are | if and when |
            depending on | according to
            """),
        (Term.Unless, "unless | except | except when | except if | except for | save"),
        (Term.While, "while | during | as long as"),
        (Term.Until, "until | till | til | pending"),
        (Term.Every, "every | each | evry | q | ev | intervals of | interval of | intervals | interval"),
        (Term.Hourly, "hourly | hrly | hly"),
        (Term.ADay, "a day | per day | each day at | in 24 h | in 24 hours | per 24 h | per 24 hours | in twenty four hours | daily at"),
        (Term.Shift, "shift | shifts"),
        (Term.Scheduled,
            """
            scheduled | on schedule | around the clock | round the clock | by the clock | fixed times | fixed schedule | atc | timed | clock based | by clock | set times |
            fixed interval | fixed intervals | regular intervals | on a schedule | timetable | by schedule | according to schedule
            """),
        (Term.Routinely,
            """
            routine | routinely | regularly | as routine | as a routine | by routine | habitually | as a matter of routine | for routine | just because | merely because | simply because
            """),
        (Term.Strictly, "strictly | strict | even if | even when | regardless of | regardless | whether or not"),
        (Term.Discretion, "discretion | per protocol | protocol | per policy | policy | per unit | judgement | judgment"),
        (Term.Indication, "indication | indications | reason | trigger | triggers | cue | cues"),
        (Term.Suction,
            """
            suction | suctioning | suctions | sx | sxn | sxd | suct | suctn | sunction | suciton | suctioin | suctin | suctionning | sucction | suxn | succ |
            aspirate secretions | sxning | sxing | aspiration of secretions | suctioing | suctoning | suctining | tracheal toilet | bronchial toilet |
            airway toilet | secretion clearance | tracheal aspiration | aspirate the trachea | secretion removal | aspiration of trachea |
            aspiration of the trachea | aspirate trachea | nts | ets
            """),
        (Term.Airway,
            """
            airway | airways | ett | et | oett | nett | endotracheal | endotrach | tracheal | trachea | tracheostomy | tracheotomy | trach | trache | trachy |
            tracheo | et tube | endotracheal tube | trach tube | tracheostomy tube | tracheal tube | breathing tube | stoma |
            bronchus | bronchial | main bronchus | main bronchi | bronchi | mini tracheostomy | minitracheostomy | mini trach | artificial airway | lower airway |
            tube | laryngectomy | intubated | ventilated | vent patient | tt | tracheobronchial | carina
            """),
        (Term.Catheter, "catheter | catheters | cath | caths | cathter | catheder | cathetar | catheteter | catherter | sucker"),
        (Term.Size, "size | sz | # | number | sized"),
        (Term.Gear,
            """
            tubing | tubings | canister | canisters | canister's | liner | bottle | jar | filter | unit | machine | pump | device | kit | kits |
            aspirator | equipment
            """),
        (Term.Vacuum,
            """
            vacuum | vac | vacum | vaccum | vacuums | vaccuum | negative pressure | subatmospheric pressure | vacuum pressure | vacuum level | vacuum setting |
            vaccume | neg pressure
            """),
        (Term.PressureWord, "pressure | press | presure | pressures | pres | prs"),
        (Term.Regulator, "regulator | reg | wall | wall unit | wall outlet | gauge set | dial"),
        (Term.Vague,
            """
            low wall suction | high wall suction | low suction | high suction | medium suction | moderate suction | gentle suction | low vacuum | high vacuum |
            medium vacuum | moderate vacuum | gentle vacuum | low pressure | high pressure suction | low wall | high wall | full suction | strong suction |
            at high vacuum | on high vacuum | at high suction | on high suction | on high | to high | at high | on medium | to medium | at medium | as high as possible | as high as needed | as high as necessary | as strong as possible | as strong as needed |
            highest vacuum | highest suction | highest setting | highest pressure | the highest setting | double it | double the vacuum | double the pressure | double the suction | may double |
            double if | double when | double for | twice that | twice as much | twice the vacuum | triple | triple if | triple for | triple it | tripled | doubled |
            may exceed | can exceed | ok to exceed | no upper limit | no limit | without limit | without limits | no maximum | no max | no ceiling | strongest | strongest setting | strongest suction |
            unrestricted | unrestricted vacuum | unrestricted suction | as much vacuum as | as much suction as | whatever vacuum | whatever suction | whatever pressure | whatever works |
            vacuum to effect | suction to effect | strong vacuum | hard suction | and work up | can go over | may go over | ok to go over |
            go over if | exceed if | exceed when | exceed as needed | more vacuum | more suction if | more suction when | more pressure if | higher vacuum if | higher suction if | higher vacuum for | higher pressure if | stronger suction | stronger vacuum |
            biggest catheter | biggest size | largest size | any size | any catheter | any size catheter | catheter size as needed | size as needed | upsize if | upsize as needed | upsize when | go up a size | go up one size |
            next size up | one size up | larger if | bigger if | larger when | bigger when | deeper if | deeper when | crank up | crank it up | crank |
            lowest effective | lowest vacuum | maximum suction | maximal suction | max suction | minimal suction | usual vacuum | usual suction pressure |
            standard vacuum | lowest effective vacuum | lowest possible | standard suction pressure | usual size | appropriate size | usual catheter |
            age appropriate | smallest catheter | largest catheter
            """),
        (Term.FullLine,
            """
            full line | full wall | full vacuum | wide open | line vacuum | fullline | full line vacuum | unregulated | full wall suction | full wall vacuum |
            bypass regulator | full bore | on full | full on | full blast | flat out | to full | at full | to full line |
            at full line | to full wall | at full wall | to full vacuum | at full vacuum | to full wall vacuum | to full line vacuum |
            without regulator | without a regulator | without the regulator | no regulator | direct wall | direct wall vacuum | straight wall |
            direct to wall | straight to wall | directly to wall | full power | full strength | full throttle | full pressure | full setting |
            bypassing regulator | bypassing the regulator | bypass the regulator | regulator bypassed | unlimited vacuum | unlimited suction | unlimited | no limit on vacuum | no vacuum limit |
            straight off the wall | off the wall | as high as it goes | as high as will go | open the regulator fully | open regulator fully | open regulator wide | open the regulator wide | open it fully
            """),
        (Term.Intermittent, "intermittent | intermittently | int mode"),
        (Term.Replace, "remove | removed | removing | take out | empty | renew | clean | swap out | discard | replace | dispose | tape | retape | secure | label | refill | date"),
        (Term.Assess,
            """
            assess | assessing | assessment | reassess | check | checks | checking | evaluate | evaluation | review | reviewed | monitor | monitoring | listen |
            listening | auscultate | auscultation | inspect | observe | document | chart | record | look | evaluate need | consider | re evaluate | reevaluate |
            exam | examine | discuss | discussed | teach | watch | measure | note
            """),
        (Term.Saline,
            """
            saline | ns | normal saline | salien | saline lavage | ns lavage | nss | 0 saline | lavage | lavages | lavaging | saline instillation | saline instil |
            isotonic saline | nacl | sodium chloride | sterile saline | salin | physiological saline | saline irrigation | salene | saline bolus down tube |
            instillation | instillations
            """),
        (Term.Instil, "instil | instill | instilled | instills | irrigate | irrigation | wash | flush with | instilling | instils"),
        (Term.Preoxygenate,
            """
            preoxygenate | preoxygenation | pre oxygenate | pre oxygenation | preox | preo2 | pre o2 | pre ox | hyperoxygenate | hyperoxygenation | hyperox |
            hyper oxygenate | hyper oxygenation | preoxygenated | preoxygenating | hyperoxygenated | pre oxygen | oxygenate before | preoxy | preoxigenate |
            pre oxigenate | hyper ox | o2 before | oxygen before | oxygen beforehand | o2 beforehand | o2 first | oxygen first | hyperoxygenating |
            pre oxygenating | oxygen boost | o2 boost | preox with | oxygenate first | oxygenate | post oxygenation | pre post oxygenation |
            pre and post oxygenation | pre and post oxygenate | pre post oxygenate | oxygen breaths | o2 breaths | preoxygen | pre oxygenated
            """),
        (Term.Oxygen, "oxygen | o2 | oxigen"),
        (Term.Full, "full | pure"),
        (Term.Before, "before | first | prior | beforehand | prior to | ahead of | preceding"),
        (Term.Closed,
            """
            in line | inline | il | closed system | closed circuit | close system | closed in line | closed line | inlin
            """),
        (Term.Open, "open | opened"),
        (Term.Technique, "technique | system | sys | method | procedure | mode of suction | approach | style | type | circuit | way"),
        (Term.Deep,
            """
            deep | deeply | until resistance | until resistance is met | until resistance is felt | until resistance met | until resistance felt | until meeting resistance | until it meets resistance |
            until there is resistance | until you meet resistance | until you feel resistance | to resistance | to the point of resistance | to the carina | down to the carina | to carina | down to carina | past the carina | past carina |
            as far as it goes | as far as it will go | as far as will go | as far as possible | all the way down | all the way in | hit the carina | hits the carina | touch the carina | touches the carina |
            below the carina | below carina | its full length | to its full length | to full length |
            beyond the carina | into the bronchus | into the main bronchus
            """),
        (Term.Shallow, "shallow | shallowly | superficial"),
        (Term.Depth,
            """
            depth | premeasured | pre measured | insert | inserted | insertion | advance | advanced | advancing | pass catheter | in to | down to | deeper | go | introduce | introduced |
            insertion depth | length of insertion | pass to | depth of insertion | catheter depth | into
            """),
        (Term.Plain,
            """
            attempt | attempting | try | trying | frequency | freq | timing | schedule | repeat | order | orders | today |
            tonight | tomorrow | morning | evening | noon | midnight | gently | gentle | carefully | slowly | quickly | sterile | aseptic |
            aseptically | nurse | nursing | rn | rt | therapist | staff | team | family | parent | parents | carer | carers | do | perform | performed | done |
            give | given | provide | add | put | so | them | you | he | she | they | we | who | which | used | applied | make | ensure | always | usual |
            usually | same | standard | default | further | still | out | up | down | care | adult | child | infant |
            newborn | baby | neonate | toddler | preterm | paediatric | pediatric | boy | girl | man | woman | male | female | end | tip |
            allow | best | good | level | levels | setting | settings | reading | target | goal | range | value | measured | occluded | kinked | lubricated | soft |
            flexible | straight | appropriate | flexi | whistle | tipped | argyle | single | multi | disposable | aim | less | often | longer | home | ward |
            icu | nicu | picu | addendum | update | at any time | at any point | on any account | under any circumstances |
            in any circumstances | in any case | at this time | at present | at the moment | seen by | has seen | have seen | been seen | reviewed by | bedside | plan | step | steps | again
            """),
        (Term.By, "by"),
        (Term.Call, "call | notify | inform | page | tell | escalate | report | ring | contact | alert | phone | let"),
    ];
}
