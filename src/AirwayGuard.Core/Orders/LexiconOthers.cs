namespace AirwayGuard.Core.Orders;

/// <summary>The lexicon's words for what is not suction of an artificial airway, and for signs that call for suction.</summary>
internal static class LexiconOthers
{
    public static readonly (Term Term, string Words)[] Terms =
    [
        (Term.Elsewhere,
            """
            oral | orally | mouth | oropharynx | oropharyngeal | pharynx | pharyngeal | nasopharyngeal | nasopharynx | nasal | nasally | nose | nares | naris |
            nostril | nostrils | nasal airway | oral airway | nasopharyngeal airway | oropharyngeal airway | yankauer | yankaur | yanker | yankeur | tonsil tip |
            bulb | bulb syringe | gastric | nasogastric | orogastric | ng | ngt | og | ogt | ng tube | og tube | gastrostomy | peg | peg tube | g tube | gtube |
            gj | j tube | jejunostomy | stomach | salem sump | repogle | replogal | sump | replogle | oesophageal | esophageal | chest | chest drain | chest drains | chest tube |
            chest tubes | pleural | pleural drain | intercostal | intercostal drain | icd | icc | thoracic drain | drain | drains | underwater seal | uwsd |
            pleurovac | mediastinal | pericardial | wound | wound vac | wound vacuum | vac dressing | npwt | dressing | dressings |
            negative pressure wound therapy | negative pressure dressing | negative pressure therapy | topical negative pressure | subglottic | sub glottic |
            supraglottic | supra cuff | above cuff | above the cuff | subglottic line | subglottic port | ssd port | lis | lcs | low intermittent suction |
            low continuous suction | low intermittent wall suction | low continuous wall suction | gomco | jp | jackson pratt | hemovac | haemovac | blake drain |
            t tube | nephrostomy | ear | vaginal | rectal | bladder | foley | urinary catheter | urinary | uterine | abdominal | intra abdominal | surgical site |
            negative pressure room | endoscopic | meconium | cheek | cheeks | buccal | saliva | drooling | orally only | sinus | sinuses | lip | lips |
            oropharynx first | bougie | redon | cervical | bowel | intestinal | penrose | csf | lumbar drain | evd | ct | suprapubic | pigtail | hickman |
            central venous | peritoneal | ventricular | pa catheter | cvc | cvl | sheath | introducer | thigh | leg | abdomen | sacrum | sacral | groin | hip |
            foot | heel | flap | graft | incision | sternal | sternum | dialysis catheter | balloon catheter | exchange catheter
            """),
        (Term.Quantity,
            """
            cuff | cuff pressure | cuff pressures | peep | cpap | epap | ipap | bipap | map | mean arterial pressure | cpp | icp | icp bolt | bp | blood pressure |
            sbp | dbp | systolic | diastolic | mean pressure | arterial pressure | cvp | abp | mmap | etco2 | co2 | end tidal | end tidal co2 | paco2 | pao2 |
            pco2 | tco2 | tcpco2 | po2 | spo2 | sao2 | sat | sats | saturation | saturations | oxygen saturation | o2 sat | o2 sats | o2 saturation | pulse ox |
            rate | rr | heart rate | respiratory rate | pulse | vt | tv | tidal volume | tidal | plateau | plateau pressure | peak | peak pressure |
            peak pressures | pip | peak inspiratory pressure | airway pressure | airway pressures | driving pressure | pressure support | ps | pc |
            pressure control | inspiratory pressure | mean airway pressure | paw | weight | wt | weighs | height | length | age | aged | gcs | rass | temp |
            temperature | i time | flow | high flow | liter flow | litre flow | on high flow | to high flow | at high flow | on high flow oxygen | on high frequency | on high frequency oscillation | pressure alarm | airway pressure alarm | pap | wedge | compliance | cough assist |
            mi e | insufflation | exsufflation | insufflator | cough peak flow | minute volume | ve | hb | inr | platelets | platelet | crp | ph | lactate | hfov |
            amplitude | hz | delta p | mean | no ppm | ppm | ino | negative inspiratory force | nif | mip | vital capacity | bed | room | head of bed | hob |
            bladder pressure | pain | score | evd at | grade | stage | gestation | ga | week gestation | support | perfusion | perfusion pressure |
            venous pressure | intraocular | intraocular pressure | iop | compartment | compartment pressure | opening pressure | pulmonary artery |
            pulmonary artery pressure | atmospheric | atmospheric pressure | barometric | inlet | inlet pressure | outlet pressure | reservoir | ecmo | dialysis |
            hemodialysis | haemodialysis | crrt | wall supply | supply pressure | pipeline | line pressure | pipeline pressure
            """),
        (Term.Care,
            """
            cares | handling | minimal handling | deep breathe | breathe | breathing exercises | turn cough | suction catheter change | suction catheter changes |
            catheter change | catheter changes | cath change | cath changes | tubing change | tubing changes | change of catheter | canister change |
            system change | closed system change | turn | turns | turning | reposition | repositioning | prone | mouth care | oral care | oral hygiene | teeth |
            mouthcare | eye care | trach care | tracheostomy care | tracheostomy site care | stoma care | trach site care | wound care | physio | physiotherapy |
            chest physiotherapy | chest physio | chest pt | cpt | vibes | percussion | postural drainage | neb | nebs | nebulizer | nebuliser | nebulised |
            nebulized | nebulisation | nebulization | nebulisers | nebulizers | inhaler | salbutamol | albuterol | ipratropium | acetylcysteine | mucolytic |
            dornase | bicarbonate | bicarb | sodium bicarbonate | bicarbonate instillation | bicarb instillation | sodium bicarbonate instillation | instillation of bicarbonate | instillation of bicarb |
            acetylcysteine instillation | mucolytic instillation | surfactant instillation | mdi | inhaled | bronchodilator | bronchodilators | humidify | humidifier | humidification | hme | hmef | vent | vent it |
            ventilator settings | strip | abg | abgs | blood gas | gas | gases | x ray | cxr | chest x ray | bloods | labs | lab | culture | cultures |
            sputum culture | specimen | glucose | feeds | feed | feeding | meals | diet | flush | flushes | iv | infusion | bolus | rinse | mouth rinse |
            speaking valve | vitals | vital signs | obs | observations | neuro obs | neuro checks | ties | tie | trach ties | trach tie | inner cannula | cannula |
            inner tube | trach change | tube change | bath | weigh | sedation | sedate | fentanyl | propofol | midazolam | lidocaine | lignocaine | morphine |
            atropine | glycopyrrolate | glyco | paracetamol | acetaminophen | antibiotic | antibiotics | heparin | medication | medications | med | meds |
            wean ventilator | sbt | spontaneous breathing trial | cough and deep breathe | deep breathing | deep breaths | incentive spirometry | spirometry |
            splint | collar | order expires | expires | renew order | visit | visits | dressing change | bag | bagging | manual ventilation | recruitment |
            recruitment manoeuvre | recruitment maneuver | central line | picc | arterial line | line | lines | catheter care | cath care | bronchoscopy |
            bronchoscope | bronch | scope | transport | extubate | extubation | mobilise | mobilize | position | leak | leak test | cuff check | cuff checks |
            cuff deflation | fluids | fluid | strict intake | intake | i and o | urine | surfactant | decannulation | capping | plugging trial | wick |
            circuit change | humidity | heater | lubricate | lubricant | swab | swabs | chlorhexidine | toothbrush | toothbrushing | antacid | feeding tube |
            pulmonary hygiene | apnea monitor | monitor alarm | pressure area care | pressure care | pressure areas | skin care | ivf | iv fluids | consult |
            enema | eye drops | eye | saline lock | saline locked | saline locks | saline soaked | saline flush | kvo | tko | saline vials | saline ampoules |
            saline dressing | saline compress | to full feeds | at full feeds | full feeds | hypertonic | hypertonic saline | heparin saline | breast | breast pump
            """),
        (Term.Sign,
            """
            high | elevated | low | worsening | sudden | fall in | drop in | loss of | change in | changes in | poor | diminished | secretion | secretions | secr |
            secretn | secretns | sputum | mucus | mucous | phlegm | plug | plugs | plugging | rhonchi | crackles | crackle | coarse | coarse breath sounds |
            coarse sounds | breath sounds | noisy | noisy breathing | noise | gurgling | gurgle | gurgly | rattle | rattling | rattly | wheeze | wheezing |
            desaturation | desaturations | desat | desats | desaturates | desaturating | desaturate | cough | coughs | coughing | sawtooth | sawtooth trace |
            sawtooth pattern | saw tooth | saw tooth pattern | sawtooth flow | flow trace | distress | respiratory distress | increased work of breathing |
            work of breathing | restless | restlessness | agitation | rising | rise | falling | fall | dropping | visible | audible | audibly | visibly | heard |
            seen | copious | low tidal volume | bradycardia | brady | bradys | cyanosis | apnoea | apnea | apnoeas | apneas | obstruction | suspected obstruction |
            occlusion | blocked | blockage | signs | symptoms | congestion | congested | retained secretions | aspiration | vomiting | emesis | bubbling | soiled |
            loose | wet | wet sounds | wet cough | moist | moist cough | dyspnoea | dyspnea | air hunger | tachypnoea | tachypnea | increased peak pressure |
            high pressure alarm | pressure alarms | adventitious | palpable | palpable secretions | fremitus | tactile fremitus | retractions | nasal flaring |
            unable to clear | inability to clear | ineffective cough | weak cough | crusting | crusts | blood clot | clots | visible secretions |
            audible secretions | clinical signs | deterioration | colour change | color change
            """),
    ];
}
