namespace AirwayGuard.TestKit.Mutation;

/// <summary>Inputs of forms that the samples lack; all invented.</summary>
internal static class OtherInputs
{
    /// <summary>The key of the findings below.</summary>
    public static readonly Guid Key = new("0b0e8a52-5d7c-5a3e-9c1d-2f6a7b8c9d0e");

    public static readonly string[] Resources =
    [
        """{"resourceType":"Condition","id":"c1","clinicalStatus":{"coding":[{"system":"http://terminology.hl7.org/CodeSystem/condition-clinical","code":"active"}]},"verificationStatus":{"coding":[{"code":"confirmed"}]},"code":{"coding":[{"system":"http://snomed.info/sct","code":"67782005"}],"text":"Acute lung injury"},"subject":{"reference":"Patient/p1"},"onsetDateTime":"2026-03-01T08:00:00Z","abatementDateTime":"2026-03-04T08:00:00Z","recordedDate":"2026-03-01T08:10:00Z"}""",
        """{"resourceType":"Patient","id":"p1","meta":{"versionId":"3","lastUpdated":"2026-03-01T09:00:00.120+11:00","security":[{"code":"R"}]},"identifier":[{"system":"urn:mrn","value":"W-1"}],"name":[{"family":"Invented","given":[null,"A"],"_given":[{"extension":[{"url":"u","valueString":"x"}]},null]}],"birthDate":"2025-11-02","_birthDate":{"extension":[{"url":"http://hl7.org/fhir/StructureDefinition/patient-birthTime","valueDateTime":"2025-11-02T04:05:06Z"}]},"extension":[{"url":"u","valueQuantity":{"value":34,"unit":"wk"}}]}""",
        """{"resourceType":"Encounter","id":"e1","status":"in-progress","class":{"code":"IMP"},"subject":{"reference":"Patient/p1"},"period":{"start":"2026-03-01T00:00:00Z"},"location":[{"location":{"reference":"Location/bed-4"},"status":"active","period":{"start":"2026-03-01T00:00:00Z","end":"2026-03-02T00:00:00Z"}}]}""",
        """{"resourceType":"ServiceRequest","id":"s1","status":"active","intent":"order","code":{"coding":[{"system":"http://snomed.info/sct","code":"232685002"}],"text":"Suction airway"},"subject":{"reference":"Patient/p1"},"occurrenceTiming":{"repeat":{"frequency":1,"period":4,"periodUnit":"h","boundsPeriod":{"start":"2026-03-01T00:00:00Z"}},"code":{"coding":[{"code":"Q4H"}],"text":"every 4 hours"}},"asNeededBoolean":true,"orderDetail":[{"text":"12 Fr, 80-120 mmHg, no saline"},{"coding":[{"display":"closed"}]}],"note":[{"text":"do not suction deeper than 12 cm"}],"reasonCode":[{"coding":[{"code":"a"}]}],"basedOn":[{"reference":"ServiceRequest/s0"}],"replaces":[{"reference":"ServiceRequest/s2"}]}""",
        """{"resourceType":"DeviceRequest","id":"d1","status":"active","intent":"order","codeReference":{"reference":"Device/r1"},"subject":{"reference":"Patient/p1"},"parameter":[{"code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"ordered-vacuum"}]},"valueRange":{"low":{"value":80,"unit":"mmHg"},"high":{"value":120,"unit":"mmHg"}}}],"occurrencePeriod":{"start":"2026-03-01T00:00:00Z","end":"2026-03-09T00:00:00Z"}}""",
        """{"resourceType":"Flag","id":"f1","identifier":[{"system":"https://airwayguard.example.org/fhir/flag","value":"0b0e8a52-5d7c-5a3e-9c1d-2f6a7b8c9d0e"}],"status":"inactive","code":{"text":"x"},"subject":{"reference":"Patient/p1"},"meta":{"versionId":"2","lastUpdated":"2026-03-01T09:00:00Z"},"author":{"reference":"Practitioner/n1"}}""",
        """{"resourceType":"DetectedIssue","id":"i1","identifier":[{"system":"https://airwayguard.example.org/fhir/detected-issue","value":"0b0e8a52-5d7c-5a3e-9c1d-2f6a7b8c9d0e"}],"status":"final","patient":{"reference":"Patient/p1"},"mitigation":[{"action":{"text":"set lower"},"date":"2026-03-01T10:00:00Z","author":{"reference":"Practitioner/n1"}}]}""",
        """{"resourceType":"Observation","id":"o9","meta":{"versionId":"4","lastUpdated":"2026-03-01T10:00:00Z","security":[{"code":"R"}]},"contained":[{"resourceType":"Patient","id":"in"}],"identifier":[{"system":"urn:rows","value":"s1-p2-suction"}],"basedOn":[{"reference":"ServiceRequest/s1"}],"partOf":[{"reference":"Procedure/a1"}],"status":"amended","category":[{"coding":[{"code":"vital-signs"}]}],"code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"catheter-size","display":"x"}],"text":"y"},"subject":{"reference":"http://sandbox.test/fhir/Patient/p1/_history/2"},"focus":[{"reference":"Device/r1"}],"encounter":{"reference":"Encounter/e1"},"effectivePeriod":{"start":"2026-03-01T09:55:00+11:00","end":"2026-03-01T09:56:00+11:00"},"valueString":"12 Fr","dataAbsentReason":{"coding":[{"code":"not-performed"}]},"hasMember":[{"reference":"Observation/o1"}],"device":{"reference":"Device/r1"},"component":[{"code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"vacuum-pressure"}]},"valueQuantity":{"value":-150.5,"comparator":"<","unit":"mmHg","system":"http://unitsofmeasure.org","code":"mm[Hg]"}},{"code":{"text":"z"},"valueBoolean":true},{"code":{"coding":[{"code":"a"}]},"valueInteger":3},{"code":{"coding":[{"code":"b"}]},"valueDateTime":"2026-03-01"},{"code":{"coding":[{"code":"c"}]},"dataAbsentReason":{"text":"q"}}]}""",
    ];

    public static readonly string[] Documents =
    [
        """{"entry":[{"resource":{"resourceType":"Patient","id":"p1"}}],"type":"collection","resourceType":"Bundle"}""",
        """{"resourceType":"Bundle","type":"history","entry":[{"request":{"method":"DELETE","url":"Observation/o1"},"response":{"status":"204","etag":"W/\"3\"","lastModified":"2026-03-01T10:00:00Z"}},{"fullUrl":"urn:uuid:5f0c","resource":{"resourceType":"Observation","status":"final"}},{"fullUrl":"urn:uuid:1","request":{"method":"DELETE","url":"urn:uuid:1"}}]}""",
        """{"resourceType":"Bundle","type":"collection","entry":[{"resource":{"resourceType":"Bundle","type":"collection"}},{},null,7,[{"resource":{}}]]}""",
        "{\"resourceType\":\"Patient\",\"id\":\"p1\"}\n{\"resourceType\":\"Bundle\",\"type\":\"collection\",\"entry\":[{\"resource\":{\"resourceType\":\"Patient\",\"id\":\"p2\"}}]}\r\n\n{\"resourceType\":\"Patient\",\"id\":\"p3\"}",
    ];

    public static readonly string[] Notices =
    [
        """{"resourceType":"Bundle","type":"subscription-notification","timestamp":"2026-03-01T10:00:00Z","entry":[{"fullUrl":"urn:uuid:1","resource":{"resourceType":"Parameters","parameter":[{"name":"type","valueCode":"event-notification"},{"name":"notification-event","part":[{"name":"event-number","valueString":"2"}]}]}}]}""",
        """{"resourceType":"Bundle","type":"history","entry":[{"resource":{"resourceType":"SubscriptionStatus","status":"active","type":"handshake","eventsSinceSubscriptionStart":"0","subscription":{"reference":"Subscription/s1"}}}]}""",
        """{"resourceType":"Observation","id":"o1","status":"final","subject":{"reference":"Patient/p1"},"valueString":"x"}""",
        "{}",
    ];

    public static readonly string[] Answers =
    [
        """{"resourceType":"OperationOutcome","id":"o","text":{"status":"generated","div":"<div>x</div>"},"issue":[{"severity":"error","code":"exception","details":{"text":"x"},"diagnostics":"y","expression":["Observation.value"]}]}""",
        """{"resourceType":"CapabilityStatement","status":"active","fhirVersion":"4.0.1","rest":[{"mode":"server","resource":[{"type":"Observation","interaction":[{"code":"read"},{"code":"history-type"}],"searchParam":[{"name":"combo-code","type":"token"},{"name":"code","type":"token"}]}]}]}""",
        """{"resourceType":"Bundle","type":"history","meta":{"lastUpdated":"2026-03-02T08:00:01Z"},"total":2,"link":[{"relation":"self","url":"http://sandbox.test/fhir/Observation/_history"}],"entry":[{"request":{"method":"DELETE","url":"Observation/o1"},"response":{"status":"204","lastModified":"2026-03-01T10:00:00Z"}},{"resource":{"resourceType":"Observation","id":"o2","status":"final"},"request":{"method":"PUT","url":"Observation/o2"}}]}""",
        """{"resourceType":"Bundle","type":"searchset","total":1,"meta":{"lastUpdated":"2026-03-02T08:00:01Z"},"entry":[{"resource":{"resourceType":"Flag","id":"f1","identifier":[{"system":"urn:a","value":"b"}],"status":"active"},"search":{"mode":"match"}},{"resource":{"resourceType":"OperationOutcome","issue":[{"severity":"warning","code":"processing"}]},"search":{"mode":"outcome"}}]}""",
        """{"resourceType":"Bundle","type":"searchset","entry":[{"resource":{"resourceType":"Subscription","id":"s1","status":"active","channel":{"type":"rest-hook","endpoint":"http://127.0.0.1:8480/notify/rows","header":["Authorization: Bearer x"]},"criteria":"Observation?code=a"}}]}""",
        """{"resourceType":"Subscription","id":"s1","status":"requested","channel":{"type":"rest-hook","endpoint":"http://127.0.0.1:8480/notify/rows"},"criteria":"Observation?code=a"}""",
    ];

    public static readonly string[] Written =
    [
        """{"resourceType":"Flag","id":"f1","meta":{"versionId":"2","lastUpdated":"2026-03-01T09:00:00Z","extension":[{"url":"urn:x","valueString":"y"}]},"identifier":[{"system":"SYSTEM","value":"0b0e8a52-5d7c-5a3e-9c1d-2f6a7b8c9d0e"}],"status":"active","code":{"text":"x"},"subject":{"reference":"Patient/p1"},"period":{"start":"2026-03-01T09:00:00Z"},"text":{"status":"generated","div":"<div xmlns=\"http://www.w3.org/1999/xhtml\">x</div>"},"extension":[{"url":"http://hl7.org/fhir/StructureDefinition/flag-detail","valueReference":{"reference":"DetectedIssue/i1"}}]}""",
        """{"resourceType":"DetectedIssue","id":"i1","meta":{"versionId":"2","lastUpdated":"2026-03-01T09:00:00Z"},"identifier":[{"system":"SYSTEM","value":"0b0e8a52-5d7c-5a3e-9c1d-2f6a7b8c9d0e"}],"status":"final","severity":"high","patient":{"reference":"Patient/p1"},"identifiedDateTime":"2026-03-01T09:00:00Z","implicated":[{"reference":"Observation/o1"}],"evidence":[{"detail":[{"reference":"Observation/o1/_history/2"}]}],"detail":"x","mitigation":[{"action":{"text":"set lower"},"date":"2026-03-01T10:00:00Z"}]}""",
    ];
}
