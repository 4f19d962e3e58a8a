namespace AirwayGuard.Core.Orders;

/// <summary>The lexicon's words for what changes an order: what ends, was, is forbidden or allowed, and how the act is not to be done.</summary>
internal static class LexiconChanges
{
    public static readonly (Term Term, decimal Value, string Words)[] Values =
    [
        (Term.Phase, 1m, "on the way in | on the way down | on insertion | on withdrawal | going in"),
        (Term.Forbidden, 1m, "refuses | refused | refusing | declined | declines | harmful | dangerous | unhelpful"),
        (Term.Manner, 1m,
            """
            unnecessarily | needlessly | without indication | without an indication | without indications | without cause | without a cause |
            without reason | without a reason | without good reason | without need | without clinical need | without clinical indication |
            w o indication | w o cause | w o reason | w o need
            """),
        (Term.Change, Shade.ByAndBy, "wean | titrate"),
        (Term.Hold, Shade.Sharper, "stop | stopped | discontinue | discontinued | dc | d c | d cd | cease | ceased | cancel | cancelled | canceled"),
        (Term.History, Shade.Sharper,
            """
            replaces order | replaces the order | supersedes | superseded | replaces prior | replaces old | cancel previous | cancels previous | cancel the previous | cancel old |
            discontinue previous | stop previous | d c previous | dc previous | supersedes order | replaces previous
            """),
        (Term.AtMost, Shade.Extreme, "max | maximum | maximal | maximally | to a maximum | the max"),
        (Term.Permitted, 1m, "rescue | emergency | emergencies | in emergency | in emergencies | second pass | second attempt | next pass | next attempt"),
        (Term.Change, Shade.Less,
            """
            decrease | decreased | reduce | reduced | lower | lowered | come down from | turn down | turned down | drop to | go down | step down | cut |
            downsize
            """),
        (Term.TooLittle, 1m, "yesterday | last week | last night"),
        (Term.Earlier, 1m, "no longer"),
        (Term.Change, Shade.FromBefore, "down from | up from"),
        (Term.FullLine, Shade.IfOfVacuum, "all the way up | fully open | fully opened | opened fully"),
        (Term.Change, Shade.VacuumUp,
            """
            titrate vacuum | titrate the vacuum | titrate suction | titrate pressure |
            turn vacuum up | turn the vacuum up | turn regulator up | turn the regulator up | turn suction up | turn the suction up | turn it up | turn wall up | turn pressure up | turn the pressure up |
            turn the wall up | turn up the vacuum | turn up the regulator | turn up the suction | turn up vacuum | turn up suction
            """),
        (Term.Change, Shade.Higher, "come up from | raise | raised | increase | increased | turn up | turned up | go up | step up | upsize | bring up"),
        (Term.Forbidden, 1m, "not needed | not required | unnecessary"),
    ];

    public static readonly (Term Term, string Words)[] Terms =
    [
        (Term.History,
            """
            previously suctioned | last suction | last suctioned | last done | last pass | old order | void | paramedics | not our patient | sisters | brothers | another patient | other patient | used to be suctioned | in theatre |
            at the other hospital | referring hospital | on transfer | mother reports | noted | on rounds | reports | reported | was told | refused suction | refused suctioning | declined suction | declined suctioning |
            family used | family uses | parents used |
            parents use | at home he is | at home she is | at home is suctioned | at home was suctioned | used at home | asks about | asked about |
            tolerated suction | tolerated suctioning | not suctioned since | did not need suction | did not require suction | did not need suctioning
            """),
        (Term.Hold,
            """
            hold | holding | withhold | withholding | suspend | suspended | halt | pause |
            paused | defer | deferred | withheld | held | on hold | hold off | hold off on
            """),
        (Term.Forbidden,
            """
            contraindicated | forbidden | prohibited | not permitted | not allowed | not indicated | is off | to be withheld | not to be performed |
            not to be done | must not be done | not be performed | unsafe | banned | is on hold | are on hold | is held | must not be performed | is withheld |
            to be held | on hold until | contra indicated | discouraged | avoided | omitted | not recommended | not advised
            """),
        (Term.Resume, "resume | restart | continue | continues | continued | lifted | reinstate | go back | allowed again | recommence | ok to | may resume"),
        (Term.Change,
            """
            go from | going from | goes from | move from | becomes | become | swap | change |
            changed | switch | switched | adjust | adjusted | reset | move | bring | brought |
            amend | amended | modify | modified | revise | revised | convert | converted | turn vacuum | turn the vacuum | turn regulator | turn the regulator |
            turn suction | turn it | turn wall | turn pressure
            """),
        (Term.Earlier,
            """
            was | were | previously | formerly | earlier | old | before it was | was on | had been | previous | prior value | used to be | until now | so far |
            instead of | rather than | in place of
            """),
        (Term.TooLittle,
            """
            too weak | too low | too high | too strong | not enough | insufficient | too much | inadequate | too small | too big | too large | does not pass |
            caused | causes | led to | bled | will not pass | did not pass | was ineffective | was not effective | failed | not available | unavailable | out of stock | not in stock
            """),
        (Term.Permitted,
            """
            allowed | permitted | acceptable | may be used | may go | can go | may use | can use | may increase | can increase | may be raised | can be raised |
            may be increased | can be increased | ok if | is fine | may upsize | can upsize | may try | can try | may turn up | may step up
            """),
        (Term.Manner,
            """
            vigorously | aggressively | excessively | hard | harshly | alone | by yourself | by yourselves | on your own | unsupervised | unattended |
            blindly | blind | prolonged | excessive | vigorous | aggressive | repeated | repeatedly | forceful | forcefully |
            too long | too hard | too deep | too deeply | too often | too vigorously | too frequently | frequent | frequently | rough | harsh | overly |
            unduly | over vigorously
            """),
        (Term.Phase,
            """
            in | on | after | past | following | straight after | immediately after | right after | directly after | soon after | shortly after
            """),
    ];
}
