"""The parts of the schemas of GPX 1.1 and KML 2.3 that are written here, set down from memory of the two standards.

They hold the order of elements, what must be there, and the ranges of coordinates; they are no copy of the published
files, and elements that are never written are left out.
"""

from __future__ import annotations

GPX_SCHEMA = """<xsd:schema xmlns="http://www.topografix.com/GPX/1/1" xmlns:xsd="http://www.w3.org/2001/XMLSchema"
 targetNamespace="http://www.topografix.com/GPX/1/1" elementFormDefault="qualified">
<xsd:element name="gpx"><xsd:complexType><xsd:sequence>
 <xsd:element name="metadata" minOccurs="0"><xsd:complexType><xsd:sequence>
  <xsd:element name="name" type="xsd:string" minOccurs="0"/>
  <xsd:element name="desc" type="xsd:string" minOccurs="0"/>
  <xsd:element name="time" type="xsd:dateTime" minOccurs="0"/>
 </xsd:sequence></xsd:complexType></xsd:element>
 <xsd:element name="wpt" type="wptType" minOccurs="0" maxOccurs="unbounded"/>
 <xsd:element name="trk" type="trkType" minOccurs="0" maxOccurs="unbounded"/>
</xsd:sequence>
<xsd:attribute name="version" type="xsd:string" use="required" fixed="1.1"/>
<xsd:attribute name="creator" type="xsd:string" use="required"/>
</xsd:complexType></xsd:element>
<xsd:complexType name="wptType"><xsd:sequence>
 <xsd:element name="ele" type="xsd:decimal" minOccurs="0"/>
 <xsd:element name="time" type="xsd:dateTime" minOccurs="0"/>
 <xsd:element name="name" type="xsd:string" minOccurs="0"/>
 <xsd:element name="cmt" type="xsd:string" minOccurs="0"/>
 <xsd:element name="desc" type="xsd:string" minOccurs="0"/>
 <xsd:element name="src" type="xsd:string" minOccurs="0"/>
 <xsd:element name="sym" type="xsd:string" minOccurs="0"/>
 <xsd:element name="type" type="xsd:string" minOccurs="0"/>
</xsd:sequence>
<xsd:attribute name="lat" type="latitudeType" use="required"/>
<xsd:attribute name="lon" type="longitudeType" use="required"/>
</xsd:complexType>
<xsd:complexType name="trkType"><xsd:sequence>
 <xsd:element name="name" type="xsd:string" minOccurs="0"/>
 <xsd:element name="cmt" type="xsd:string" minOccurs="0"/>
 <xsd:element name="desc" type="xsd:string" minOccurs="0"/>
 <xsd:element name="src" type="xsd:string" minOccurs="0"/>
 <xsd:element name="number" type="xsd:nonNegativeInteger" minOccurs="0"/>
 <xsd:element name="type" type="xsd:string" minOccurs="0"/>
 <xsd:element name="trkseg" minOccurs="0" maxOccurs="unbounded"><xsd:complexType><xsd:sequence>
  <xsd:element name="trkpt" type="wptType" minOccurs="0" maxOccurs="unbounded"/>
 </xsd:sequence></xsd:complexType></xsd:element>
</xsd:sequence></xsd:complexType>
<xsd:simpleType name="latitudeType"><xsd:restriction base="xsd:decimal">
 <xsd:minInclusive value="-90.0"/><xsd:maxInclusive value="90.0"/></xsd:restriction></xsd:simpleType>
<xsd:simpleType name="longitudeType"><xsd:restriction base="xsd:decimal">
 <xsd:minInclusive value="-180.0"/><xsd:maxExclusive value="180.0"/></xsd:restriction></xsd:simpleType>
</xsd:schema>"""

KML_SCHEMA = """<xsd:schema xmlns="http://www.opengis.net/kml/2.2" xmlns:xsd="http://www.w3.org/2001/XMLSchema"
 targetNamespace="http://www.opengis.net/kml/2.2" elementFormDefault="qualified">
<xsd:element name="kml"><xsd:complexType><xsd:sequence>
 <xsd:element name="Document" minOccurs="0"><xsd:complexType><xsd:sequence>
  <xsd:element name="name" type="xsd:string" minOccurs="0"/>
  <xsd:element name="description" type="xsd:string" minOccurs="0"/>
  <xsd:element name="Style" type="styleType" minOccurs="0" maxOccurs="unbounded"/>
  <xsd:element name="Folder" type="folderType" minOccurs="0" maxOccurs="unbounded"/>
 </xsd:sequence></xsd:complexType></xsd:element>
</xsd:sequence></xsd:complexType></xsd:element>
<xsd:complexType name="styleType"><xsd:sequence>
 <xsd:element name="LineStyle" minOccurs="0"><xsd:complexType><xsd:sequence>
  <xsd:element name="color" minOccurs="0"><xsd:simpleType><xsd:restriction base="xsd:hexBinary">
   <xsd:length value="4"/></xsd:restriction></xsd:simpleType></xsd:element>
  <xsd:element name="colorMode" type="xsd:string" minOccurs="0"/>
  <xsd:element name="width" type="xsd:double" minOccurs="0"/>
 </xsd:sequence></xsd:complexType></xsd:element>
</xsd:sequence><xsd:attribute name="id" type="xsd:ID"/></xsd:complexType>
<xsd:complexType name="folderType"><xsd:sequence>
 <xsd:element name="name" type="xsd:string" minOccurs="0"/>
 <xsd:element name="description" type="xsd:string" minOccurs="0"/>
 <xsd:element name="Placemark" minOccurs="0" maxOccurs="unbounded"><xsd:complexType><xsd:sequence>
  <xsd:element name="name" type="xsd:string" minOccurs="0"/>
  <xsd:element name="description" type="xsd:string" minOccurs="0"/>
  <xsd:element name="styleUrl" type="xsd:anyURI" minOccurs="0"/>
  <xsd:choice>
   <xsd:element name="Point"><xsd:complexType><xsd:sequence>
    <xsd:element name="coordinates" type="oneType"/>
   </xsd:sequence></xsd:complexType></xsd:element>
   <xsd:element name="LineString"><xsd:complexType><xsd:sequence>
    <xsd:element name="extrude" type="xsd:boolean" minOccurs="0"/>
    <xsd:element name="tessellate" type="xsd:boolean" minOccurs="0"/>
    <xsd:element name="altitudeMode" type="xsd:string" minOccurs="0"/>
    <xsd:element name="coordinates" type="manyType"/>
   </xsd:sequence></xsd:complexType></xsd:element>
  </xsd:choice>
 </xsd:sequence></xsd:complexType></xsd:element>
</xsd:sequence></xsd:complexType>
<xsd:simpleType name="pairType"><xsd:restriction base="xsd:string">
 <xsd:pattern value="-?(1[0-7][0-9]|[0-9]{1,2}|180)\\.[0-9]+,-?([0-8]?[0-9]|90)\\.[0-9]+"/>
</xsd:restriction></xsd:simpleType>
<xsd:simpleType name="oneType"><xsd:restriction base="pairType"/></xsd:simpleType>
<xsd:simpleType name="listType"><xsd:list itemType="pairType"/></xsd:simpleType>
<xsd:simpleType name="manyType"><xsd:restriction base="listType">
 <xsd:minLength value="2"/></xsd:restriction></xsd:simpleType>
</xsd:schema>"""
