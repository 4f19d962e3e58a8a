namespace AirwayGuard.Fhir.Tests.Reading;

/// <summary>Resources as a hospital might send them. All invented.</summary>
internal static class Samples
{
    public static string Of(string typeAndId) => All.Single(json =>
        json.Contains($"\"resourceType\":\"{typeAndId.Split('/')[0]}\",\"id\":\"{typeAndId.Split('/')[1]}\"", StringComparison.Ordinal));

    public static IReadOnlyList<string> All { get; } =
    [
        """
        {"resourceType":"Observation","id":"fs-1","meta":{"versionId":"1","lastUpdated":"2025-03-04T14:06:40Z"},
         "identifier":[{"system":"urn:oid:2.16.840.1.113883.3.9999.1.7","value":"row/88120/2025-03-04T14:02/31001"}],"status":"final",
         "code":{"coding":[{"system":"urn:oid:2.16.840.1.113883.3.9999.1.40","code":"31001","display":"Suction pressure, wall (mmHg)"}],"text":"Suction pressure"},
         "subject":{"reference":"Patient/p1"},"encounter":{"reference":"Encounter/e1"},"effectiveDateTime":"2025-03-04T14:02:00Z","issued":"2025-03-04T14:06:39.120Z",
         "performer":[{"reference":"Practitioner/rt7"}],"valueQuantity":{"value":160,"unit":"mmHg"}}
        """,
        """
        {"resourceType":"Observation","id":"fs-2","status":"final","code":{"coding":[{"system":"urn:oid:2.16.840.1.113883.3.9999.1.40","code":"31004"}],"text":"Catheter size"},
         "subject":{"reference":"Patient/p1"},"encounter":{"reference":"Encounter/e1"},"effectiveDateTime":"2025-03-04T14:02:00Z","valueString":"14 Fr"}
        """,
        """
        {"resourceType":"Observation","id":"fs-4","status":"final","code":{"coding":[{"system":"urn:oid:2.16.840.1.113883.3.9999.1.40","code":"31012"}],"text":"Pre-oxygenated"},
         "subject":{"reference":"Patient/p1"},"encounter":{"reference":"Encounter/e1"},"effectiveDateTime":"2025-03-04T14:02:00Z",
         "dataAbsentReason":{"coding":[{"system":"http://terminology.hl7.org/CodeSystem/data-absent-reason","code":"not-performed"}]}}
        """,
        """
        {"resourceType":"Procedure","id":"sx-1","status":"completed","basedOn":[{"reference":"ServiceRequest/sr-1"}],
         "code":{"coding":[{"system":"http://snomed.info/sct","code":"129112001","display":"Aspiration of trachea"}],"text":"Endotracheal suction"},
         "subject":{"reference":"Patient/p1"},"encounter":{"reference":"Encounter/e1"},"performedPeriod":{"start":"2025-03-04T14:02:05Z","end":"2025-03-04T14:02:17Z"},
         "performer":[{"actor":{"reference":"Practitioner/rt7"}}],"focalDevice":[{"manipulated":{"reference":"Device/ett-1"}}],
         "usedReference":[{"reference":"Device/cath-14fr"},{"reference":"Device/reg-12"}]}
        """,
        """
        {"resourceType":"Observation","id":"sx-1-secr","status":"final","partOf":[{"reference":"Procedure/sx-1"}],
         "code":{"coding":[{"system":"http://snomed.info/sct","code":"277901007","display":"Sputum appearance"}]},"subject":{"reference":"Patient/p1"},
         "effectivePeriod":{"start":"2025-03-04T14:02:05Z","end":"2025-03-04T14:02:17Z"},
         "component":[{"code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"secretion-amount"}]},
           "valueCodeableConcept":{"coding":[{"system":"http://snomed.info/sct","code":"248599002","display":"Copious sputum"}]}}]}
        """,
        """
        {"resourceType":"Observation","id":"spo2-pre","meta":{"profile":["http://hl7.org/fhir/us/core/StructureDefinition/us-core-pulse-oximetry"]},"status":"final",
         "category":[{"coding":[{"system":"http://terminology.hl7.org/CodeSystem/observation-category","code":"vital-signs"}]}],
         "code":{"coding":[{"system":"http://loinc.org","code":"59408-5"},{"system":"http://loinc.org","code":"2708-6"},{"system":"urn:iso:std:iso:11073:10101","code":"150456"}]},
         "subject":{"reference":"Patient/p1"},"effectiveDateTime":"2025-03-04T14:01:30Z","valueQuantity":{"value":96,"unit":"%","system":"http://unitsofmeasure.org","code":"%"},
         "component":[{"code":{"coding":[{"system":"http://loinc.org","code":"3150-0"}]},"valueQuantity":{"value":100,"unit":"%","system":"http://unitsofmeasure.org","code":"%"}}]}
        """,
        """
        {"resourceType":"Device","id":"ett-1","identifier":[{"system":"urn:oid:2.16.840.1.113883.3.9999.1.22","value":"AWY-0417"}],"status":"active",
         "deviceName":[{"name":"ETT cuffed 7.5 oral","type":"user-friendly-name"}],
         "type":{"coding":[{"system":"http://snomed.info/sct","code":"26412008","display":"Endotracheal tube"}]},
         "property":[{"type":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"tube-inner-diameter"}]},
           "valueQuantity":[{"value":7.5,"unit":"mm","system":"http://unitsofmeasure.org","code":"mm"}]},
          {"type":{"coding":[{"system":"https://willowmere.example.org/charting/device-property","code":"cuff"}]},
           "valueCode":[{"coding":[{"system":"http://loinc.org","code":"LA18002-8","display":"Cuffed endotracheal tube"}]}]}],"patient":{"reference":"Patient/p1"}}
        """,
        """
        {"resourceType":"DeviceUseStatement","id":"dus-1","status":"active","subject":{"reference":"Patient/p1"},"timingPeriod":{"start":"2025-03-02T08:11:00Z"},
         "recordedOn":"2025-03-02T08:20:00Z","device":{"reference":"Device/ett-1"},"bodySite":{"text":"Oral"}}
        """,
        """
        {"resourceType":"Observation","id":"ett-depth","status":"final","code":{"coding":[{"system":"http://loinc.org","code":"33444-1","display":"Intubation tube depth Respiratory system"}]},
         "subject":{"reference":"Patient/p1"},"focus":[{"reference":"Device/ett-1"}],"effectiveDateTime":"2025-03-04T12:00:00Z","valueQuantity":{"value":23,"unit":"cm","system":"http://unitsofmeasure.org","code":"cm"},
         "component":[{"code":{"coding":[{"system":"http://snomed.info/sct","code":"413529001","display":"Anatomic reference point"}]},"valueCodeableConcept":{"coding":[{"system":"http://snomed.info/sct","code":"245543004","display":"Dentition"}]}}]}
        """,
        """
        {"resourceType":"Device","id":"reg-12","status":"active","serialNumber":"VR-0012","deviceName":[{"name":"Wall vacuum regulator bed 12","type":"user-friendly-name"}],
         "type":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/device-kind","code":"vacuum-regulator"},{"system":"http://snomed.info/sct","code":"706092000","display":"Suction system"}]},
         "location":{"reference":"Location/icu-b12"}}
        """,
        """
        {"resourceType":"DeviceMetric","id":"reg-12-set","type":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"vacuum-set"}]},
         "source":{"reference":"Device/reg-12"},"parent":{"reference":"Device/reg-12"},"operationalStatus":"on","category":"setting"}
        """,
        """
        {"resourceType":"Observation","id":"reg-12-120","status":"final","code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"vacuum-set","display":"Vacuum set pressure (magnitude below ambient)"}]},
         "subject":{"reference":"Patient/p1"},"encounter":{"reference":"Encounter/e1"},"effectiveDateTime":"2025-03-04T13:58:12Z","device":{"reference":"DeviceMetric/reg-12-set"},
         "valueQuantity":{"value":120,"unit":"mmHg","system":"http://unitsofmeasure.org","code":"mm[Hg]"},
         "component":[{"code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"regulator-mode"}]},"valueCodeableConcept":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care-answer","code":"regulated"}]}}]}
        """,
        """
        {"resourceType":"ServiceRequest","id":"sr-1","identifier":[{"system":"urn:oid:2.16.840.1.113883.3.9999.1.5","value":"ORD-771"}],"status":"active","intent":"order",
         "category":[{"coding":[{"system":"http://snomed.info/sct","code":"53950000","display":"Respiratory therapy"}]}],
         "code":{"coding":[{"system":"http://snomed.info/sct","code":"230040009","display":"Airway suctioning"}],"text":"Suction endotracheal tube"},
         "orderDetail":[{"text":"Closed in-line catheter, 14 Fr"},{"text":"Maximum vacuum 120 mmHg"},{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/order-detail","code":"pre-oxygenate"}]}],
         "subject":{"reference":"Patient/p1"},"encounter":{"reference":"Encounter/e1"},"occurrenceTiming":{"repeat":{"boundsPeriod":{"start":"2025-03-04T07:00:00Z"},"frequency":1,"period":4,"periodUnit":"h"}},
         "asNeededCodeableConcept":{"text":"Visible or audible secretions, rising peak pressure, falling SpO2"},"authoredOn":"2025-03-04T06:55:00Z","requester":{"reference":"Practitioner/md3"},
         "reasonCode":[{"text":"Retained secretions"}],"note":[{"text":"No saline instillation."}]}
        """,
        """
        {"resourceType":"DeviceRequest","id":"dr-1","basedOn":[{"reference":"ServiceRequest/sr-1"}],"status":"active","intent":"order",
         "codeCodeableConcept":{"coding":[{"system":"http://snomed.info/sct","code":"58253008"}],"text":"Closed in-line suction catheter"},
         "parameter":[{"code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"vacuum-set"}]},"valueRange":{"low":{"value":80,"unit":"mmHg","system":"http://unitsofmeasure.org","code":"mm[Hg]"},"high":{"value":120,"unit":"mmHg","system":"http://unitsofmeasure.org","code":"mm[Hg]"}}},
          {"code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"catheter-size"}]},"valueQuantity":{"value":14,"unit":"Fr","system":"http://unitsofmeasure.org","code":"[Ch]"}},
          {"code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"suction-system"}]},"valueCodeableConcept":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care-answer","code":"closed"}]}}],
         "subject":{"reference":"Patient/p1"},"encounter":{"reference":"Encounter/e1"},"authoredOn":"2025-03-04T06:55:00Z","requester":{"reference":"Practitioner/md3"}}
        """,
        """
        {"resourceType":"Patient","id":"p1","identifier":[{"system":"urn:oid:1.2.3","value":"MRN1"}],"birthDate":"1961-05"}
        """,
        """
        {"resourceType":"Encounter","id":"e1","status":"in-progress","class":{"system":"http://terminology.hl7.org/CodeSystem/v3-ActCode","code":"ACUTE"},"subject":{"reference":"Patient/p1"},"period":{"start":"2025-03-01T08:00:00+11:00"},
         "location":[{"location":{"reference":"Location/icu-b12"},"period":{"start":"2025-03-02T08:00:00+11:00","end":"2025-03-03T08:00:00+11:00"}},{"location":{"reference":"Location/icu-b13"}}]}
        """,
        """
        {"resourceType":"Location","id":"icu-b12","name":"Bed 12"}
        """,
        """
        {"resourceType":"DeviceMetric","id":"m2","type":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"vacuum-pressure"}]},"parent":{"reference":"Device/reg-12"},"category":"measurement",
         "calibration":[{"state":"calibrated","time":"2025-01-02T23:30:00+11:00"},{"state":"not-calibrated","time":"2026-01-02T23:30:00+11:00"}]}
        """,
        """
        {"resourceType":"Condition","id":"c1","code":{"coding":[{"system":"https://willowmere.example.org/charting/row","code":"rt-lung-injury"}]},"subject":{"reference":"Patient/p1"},"onsetDateTime":"2025-03-01T08:00:00Z"}
        """,
    ];
}
